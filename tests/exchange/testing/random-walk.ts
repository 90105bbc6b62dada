import { CHART_EVENTS, CHART_STATES, chartNumbers, stateOf, toldEvent } from '../../../engine/exchange/index.ts';
import { fromSi, quantityKind, unitOf } from '../../../engine/quantity/index.ts';
import { isChoice } from '../../../engine/tree/index.ts';
import {
  type CompiledStep,
  factValue,
  gaugeBands,
  putBackItems,
  type WalkableEdition,
  type WalkPosition,
  walkPosition,
} from '../../../engine/walk/index.ts';
import { WalkDriver } from '../../../engine/walk/testing/walk-driver.ts';
import type { ChartRunner } from './chart-runner.ts';

/** Walks an edition by what was tried least so far, and the chart beside it. */
export class RandomWalk {
  private readonly driver: WalkDriver;
  readonly states: string[] = [];

  constructor(
    private readonly edition: WalkableEdition,
    private readonly chart: ChartRunner,
    private readonly tried: Map<string, number>,
    private readonly random: () => number,
  ) {
    this.driver = new WalkDriver(edition).must({ type: 'opened' });
  }

  private get context() {
    return this.driver.walk.snapshot.context;
  }

  get position(): WalkPosition {
    return walkPosition(this.edition.compiled, this.driver.walk.snapshot.value, this.context);
  }

  /** The state that the chart has to stand in. */
  get expected(): string {
    const { phase, step } = this.position;
    switch (phase) {
      case 'opening':
      case 'unopened':
        return CHART_STATES.opening;
      case 'repair':
        return CHART_STATES.repair;
      case 'put-back':
        return CHART_STATES.putBack;
      case 'recheck':
        return CHART_STATES.recheck;
      case 'closing':
        return CHART_STATES.ready;
      case 'closed':
        return CHART_STATES.closed;
      default:
        return stateOf(step?.key ?? '');
    }
  }

  /** How many steps a way on can lead to; stopping leads to one. */
  private reach(step: CompiledStep, on: string): number {
    const seen = new Set<string>();
    const next = [step.leadsTo.get(on)];
    for (let key = next.pop(); key !== undefined || next.length > 0; key = next.pop()) {
      if (key === undefined || seen.has(key)) continue;
      seen.add(key);
      next.push(...(this.edition.compiled.steps.get(key)?.leadsTo.values() ?? []));
    }
    return Math.max(1, seen.size);
  }

  /** The way tried least for what lies behind it, so that a few walks come far. */
  private pick(step: CompiledStep, among: readonly string[]): string {
    const count = (on: string): number => this.tried.get(`${step.key} ${on}`) ?? 0;
    const rank = new Map(among.map((on) => [on, (count(on) + this.random() / 2) / this.reach(step, on)]));
    const least = [...among].sort((a, b) => (rank.get(a) ?? 0) - (rank.get(b) ?? 0))[0] ?? '';
    this.tried.set(`${step.key} ${least}`, count(least) + 1);
    return least;
  }

  /** Something to type that falls into a band. */
  private typedFor(step: CompiledStep, on: string): string {
    const { gauge } = step;
    if (!gauge) return '';
    const bands = gaugeBands(gauge, (name) => factValue(this.edition.compiled.facts, this.context.facts, name));
    if (!bands.ok) return '0';
    const band = bands.value.find((b) => b.on === on);
    if (band?.band.kind === 'open') return 'OL';
    const { floor, unit } = quantityKind(gauge.step.takes);
    const edges = bands.value.flatMap(({ low, high }) => [low, high]).filter((edge) => edge !== null);
    const low = band?.low ?? (band?.band.kind === 'otherwise' ? Math.max(0, ...edges) : Math.max(floor, (band?.high ?? 0) - 10));
    const high = band?.high ?? low + 10;
    // Now and then exactly on the lower edge.
    const si = this.random() < 0.2 ? low : low + (high - low) * this.random();
    const shown = unitOf(gauge.step.unit ?? unit);
    return String(shown ? fromSi(si, shown) : si);
  }

  private did(event: unknown): boolean {
    const before = this.driver.lines.length;
    this.driver.send(event);
    return this.driver.lines.length > before;
  }

  private numbers() {
    const { facts } = this.context;
    return chartNumbers(this.edition, (name) => factValue(this.edition.compiled.facts, facts, name));
  }

  private get judgedSi(): number | 'open' | undefined {
    const event = this.driver.lines.at(-1)?.event;
    return event && 'judged' in event ? event.judged?.si : undefined;
  }

  private turn(setting: string, state: string): void {
    if (this.did({ type: 'did', does: `turn ${setting} ${state}` })) this.chart.send(CHART_EVENTS.turn, { setting, state });
  }

  private cannot(): void {
    if (this.did({ type: 'could-not' })) this.chart.send(CHART_EVENTS.cannot);
  }

  /** Answers a step as the tree asks it. */
  private answer(step: CompiledStep, names: (on: string) => string): void {
    const unmet = step.step.while.filter(({ setting, state }) => this.context.circuit.settings[setting] !== state);
    const [hold] = unmet;
    if (hold && this.random() < 0.8) {
      this.turn(hold.setting, hold.state);
      return;
    }
    const ways = [...step.leadsTo.keys()];
    const on = this.pick(step, [...ways, ...(step.cannot === undefined || this.random() < 0.6 ? [] : ['cannot'])]);
    if (on === 'cannot') {
      this.cannot();
      return;
    }
    const stopped = (): void => {
      if (!hold) this.cannot();
    };
    switch (step.step.kind) {
      case 'act':
        if (this.did({ type: 'did' })) this.chart.send(CHART_EVENTS.did);
        else if (hold) this.chart.send(CHART_EVENTS.did);
        else stopped();
        return;
      case 'look':
        if (this.did({ type: 'looked', saw: on })) {
          this.driver.must({ type: 'went-on' });
          this.chart.send(names(on));
        } else if (hold) this.chart.send(names(on));
        else stopped();
        return;
      case 'reading':
        if (this.did({ type: 'read', typed: this.typedFor(step, on) })) {
          const value = this.judgedSi;
          this.driver.must({ type: 'went-on' });
          this.chart.send(CHART_EVENTS.reading, { value, numbers: this.numbers() });
        } else if (hold) this.chart.send(CHART_EVENTS.reading, { value: 1 });
        else stopped();
        return;
      case 'ask': {
        const { fact } = step.step;
        const spec = this.edition.compiled.facts.get(fact)?.spec;
        const typed = spec && isChoice(spec) ? (on === 'known' ? spec.usual : on) : step.gauge ? this.typedFor(step, on) : (spec?.usual ?? '');
        if (!this.did({ type: 'told', fact, typed })) {
          stopped();
          return;
        }
        this.driver.must({ type: 'went-on' });
        const known = this.context.facts[fact];
        this.chart.send(toldEvent(fact), { value: known?.si ?? known?.typed, numbers: this.numbers() });
      }
    }
  }

  /** One thing that the tech does, on both. */
  step(names: (step: CompiledStep, on: string) => string): void {
    const { phase, step } = this.position;
    if (phase === 'opening') {
      this.driver.readCautions().must({ type: 'went-on' });
      this.chart.send(CHART_EVENTS.begin);
    } else if (phase === 'cautions') this.driver.readCautions();
    else if (phase === 'finding') {
      this.driver.must({ type: 'found' });
      this.chart.send(CHART_EVENTS.found);
    } else if (phase === 'handoff') {
      this.driver.must({ type: 'went-on' });
      this.chart.send(CHART_EVENTS.handedOff);
    } else if (phase === 'repair') {
      const done = this.random() < 0.8;
      this.driver.must({ type: 'repaired', done });
      this.chart.send(done ? CHART_EVENTS.repaired : CHART_EVENTS.notRepaired);
    } else if (phase === 'put-back') {
      const items = putBackItems(this.context.circuit, this.edition.compiled.asFound);
      const item = items.find(({ key }) => this.did({ type: 'put-back', item: key }));
      if (item) this.chart.send(CHART_EVENTS.putBack, { item: item.key });
      else
        for (const [setting, state] of Object.entries(this.edition.compiled.asFound))
          if (setting.includes('power')) this.turn(setting, state === 'on' ? 'off' : 'on');
    } else if (phase === 'recheck' && step) this.recheck(step, (on) => names(step, on));
    else if (phase === 'closing') {
      this.driver.must({ type: 'closed' });
      this.chart.send(CHART_EVENTS.closed);
    } else if (step) this.answer(step, (on) => names(step, on));
    this.states.push(this.expected);
  }

  private recheck(step: CompiledStep, names: (on: string) => string): void {
    const hold = step.step.while.find(({ setting, state }) => this.context.circuit.settings[setting] !== state);
    if (hold) {
      this.turn(hold.setting, hold.state);
      return;
    }
    const passes = this.edition.compiled.recheck?.passes ?? '';
    const on = this.random() < 0.7 ? passes : this.pick(step, [...step.leadsTo.keys()]);
    if (step.step.kind === 'reading') {
      if (this.did({ type: 'rechecked', typed: this.typedFor(step, on) })) this.chart.send(CHART_EVENTS.reading, { value: this.judgedSi });
    } else if (this.did({ type: 'rechecked', saw: on })) this.chart.send(names(on));
  }
}
