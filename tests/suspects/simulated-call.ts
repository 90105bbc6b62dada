import {
  asFound,
  type Bench,
  type MeterPlace,
  measure,
  prepare,
  type Situation,
  signsOf,
  solve,
  withJumper,
  withLifted,
  withSetting,
} from '../../engine/bench/index.ts';
import type { FactPoint } from '../../engine/formula/index.ts';
import { type Trail, trailAfter, type WalkAdvisor } from '../../engine/suspects/index.ts';
import type { WalkEvent } from '../../engine/walk/index.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';

/** A tech on a call whose circuit has this fault: reads a simulated meter, looks at simulated signs, and keeps the minutes. */
export class SimulatedCall {
  readonly driver: WalkDriver;
  trail: Trail = [];
  minutes = 0;
  private readonly prepared;
  private readonly answers = new Map<string, string>();

  constructor(
    edition: ConstructorParameters<typeof WalkDriver>[0],
    private readonly bench: Bench,
    private faults: readonly string[],
    /** What is so in this house, SI; the usual values of the rest. */
    private readonly house: FactPoint = {},
  ) {
    this.driver = new WalkDriver(edition);
    this.prepared = prepare(bench);
    this.driver.open();
  }

  get at(): string | undefined {
    return this.driver.walk.snapshot.context.at;
  }

  send(...events: WalkEvent[]): void {
    for (const event of events) {
      const before = this.driver.walk.snapshot.context;
      this.driver.must(event);
      this.trail = trailAfter(this.trail, before, this.driver.walk.snapshot.context);
    }
  }

  /** Tells a fact now, and again where a step asks for it. */
  tell(fact: string, typed: string): void {
    this.answers.set(fact, typed);
    this.send({ type: 'told', fact, typed });
  }

  private solved() {
    const { circuit } = this.driver.walk.snapshot.context;
    const found = asFound(this.bench);
    let situation: Situation = { ...found, facts: { ...found.facts, ...this.house }, faults: this.faults };
    for (const [setting, state] of Object.entries(circuit.settings))
      if (Object.hasOwn(this.bench.settings, setting)) situation = withSetting(situation, setting, state);
    for (const [a, b] of circuit.jumpers) situation = withJumper(situation, a, b);
    for (const lead of circuit.lifted) situation = withLifted(situation, lead);
    const solved = solve(this.prepared, situation);
    if (!solved.ok) throw new Error(solved.reason);
    return solved;
  }

  /** Does whatever the open step asks, and goes on to the next. */
  work(): void {
    const { view } = this.driver;
    for (const [caution, { mustRead, read }] of view.cautions.entries()) if (mustRead && !read) this.send({ type: 'caution-read', caution });
    const { step, unmet } = this.driver.view;
    if (!step) throw new Error(`no step is open in ${view.phase}`);
    for (const { setting, state } of unmet) {
      this.send({ type: 'did', does: `turn ${setting} ${state}` });
      this.minutes += 1;
    }
    this.minutes += step.minutes;
    switch (step.kind) {
      case 'act':
        this.send({ type: 'did' });
        return;
      case 'look': {
        const [seen, ...others] = step.ways.map(({ on }) => on);
        const is = step.sign === undefined ? undefined : signsOf(this.solved())[step.sign];
        this.send({ type: 'looked', saw: (is ? seen : others[0]) ?? '' }, { type: 'went-on' });
        return;
      }
      case 'reading': {
        const place: MeterPlace = step.across ? { across: step.across } : { at: step.at ?? '' };
        const reading = measure(this.solved(), step.takes, place, step.input ? { input: step.input } : {});
        if (!reading.ok) throw new Error(`${step.id}: ${reading.code}`);
        this.send({ type: 'read', typed: reading.shown });
        this.send({ type: 'went-on', ...((this.driver.view.verdict?.tooClose ?? false) && { tooClose: true }) });
        return;
      }
      case 'ask': {
        const typed = this.answers.get(step.fact);
        if (typed === undefined) throw new Error(`nobody told ${step.fact}`);
        this.send({ type: 'told', fact: step.fact, typed });
        if (this.driver.view.phase === 'verdict') this.send({ type: 'went-on' });
        return;
      }
      default:
        throw new Error(`${step.kind} ${step.id}`);
    }
  }

  /** Repairs what the finding names, puts everything back and tries the complaint again. */
  repair(names: readonly string[]): void {
    const { view } = this.driver;
    for (const [caution, { mustRead, read }] of view.cautions.entries()) if (mustRead && !read) this.send({ type: 'caution-read', caution });
    this.faults = this.faults.filter((fault) => !names.includes(fault));
    this.send({ type: 'found' }, { type: 'repaired', done: true });
    for (const { key } of this.driver.view.putBack) this.send({ type: 'put-back', item: key });
    const { step } = this.driver.view;
    if (step?.kind !== 'look' || step.sign === undefined) throw new Error('the recheck is no look');
    const [seen = '', other = ''] = step.ways.map(({ on }) => on);
    this.send({ type: 'rechecked', saw: signsOf(this.solved())[step.sign] ? seen : other });
  }

  /** Takes the advisor's first reading or look until it names a finding, and goes there. How many were taken, and what the finding names. */
  follow(advisor: WalkAdvisor, most = 25): { readonly taken: number; readonly names: readonly string[] } {
    for (let taken = 0; taken < most; taken += 1) {
      const { next, finding } = advisor.advise(this.driver.walk, this.trail);
      if (finding) {
        if (this.at !== `${finding.tree}/${finding.step.id}`) this.send({ type: 'jumped', tree: finding.tree, step: finding.step.id });
        return { taken, names: finding.step.faults };
      }
      const [best] = next.readings;
      const goal = best?.candidate.reached?.step;
      if (!best?.jump || !goal) throw new Error(`nothing to take at ${this.at}`);
      const { step } = best.jump;
      for (const item of best.jump.putBack) {
        this.send({ type: 'put-back', item: item.key });
        this.minutes += item.kind === 'setting' ? 1 : 0.5;
      }
      if (!best.jump.onTheWay) this.send({ type: 'jumped', tree: step.tree.name, step: step.step.id, why: best.reason });
      for (let done = false; !done; ) {
        done = this.at === goal.key;
        this.work();
      }
    }
    throw new Error('no end');
  }
}
