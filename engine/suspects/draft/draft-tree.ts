import type { Bench } from '../../bench/index.ts';
import { type QuantityKindName, quantityKind, showMeterAccuracy } from '../../quantity/index.ts';
import { failure, type Result, success } from '../../result.ts';
import type { ReadingStep, Step, Target, Tree, Way } from '../../tree/index.ts';
import { type Isolation, isolateFaults } from '../isolate/isolate-faults.ts';
import { type IsolationOptions, type IsolationProblem, isolationProblem } from '../isolate/isolation-problem.ts';
import type { IsolationTest } from '../isolate/isolation-test.ts';
import type { Move } from '../isolate/set-up-plan.ts';
import { isolatingSettings } from '../isolate/stances.ts';
import { repairOrder } from '../repair-order.ts';
import type { TestPlan } from '../search/test-plan.ts';
import { draftBands, draftUnit } from './band-edges.ts';
import { deadCautions, openingCautions, readingCautions } from './draft-cautions.ts';
import { draftHouses } from './draft-houses.ts';
import type { DraftProblem } from './draft-problem.ts';
import * as words from './draft-words.ts';
import { StepNames } from './step-names.ts';

export type DraftedTree = {
  readonly tree: Tree;
  readonly isolation: Isolation;
  /** Faults that no probe of the bench tells apart, in groups. */
  readonly ambiguous: readonly (readonly string[])[];
};

export type DraftOptions = IsolationOptions & {
  /** The tree's name: its file without the ending. */
  readonly name: string;
  /** The bench's name: its file without the ending. */
  readonly bench: string;
  readonly title?: string;
  /** Sets that the exact search may open. */
  readonly most?: number;
  /** Hears what is being done: gathering readings, or ordering them with the sets of suspects that were opened. */
  readonly progress?: (stage: 'gathering' | 'ordering', opened: number) => void;
};

/** Drafts a tree from a bench: the order that takes the fewest expected minutes, with the words that it needs to be walked. */
export function draftTree(bench: Bench, options: DraftOptions): Result<DraftedTree, DraftProblem> {
  if (Object.keys(bench.faults).length === 0) return failure({ code: 'no-faults' });
  const { most, progress } = options;
  progress?.('gathering', 0);
  const problem = isolationProblem(bench, { houses: draftHouses(bench), plainBands: true, ...options });
  if (problem.complaint < 0) return failure({ code: 'nothing-tells' });
  progress?.('ordering', 0);
  const isolation = isolateFaults(problem, {
    ...(most !== undefined && { most }),
    ...(progress && { progress: (opened: number) => progress('ordering', opened) }),
  });
  const writer = new DraftWriter(bench, problem, options);
  return success({ tree: writer.write(isolation.plan), isolation, ambiguous: writer.ambiguous });
}

/** Kinds of parts that carry no current. */
const UNWIRED: ReadonlySet<string> = new Set(['state']);

/** Reads below this prove two points dead. Common practice: a few volts are stray. */
const DEAD_BAND = '2 V';

class DraftWriter {
  readonly ambiguous: (readonly string[])[] = [];
  private readonly names = new StepNames();
  private readonly steps: Step[] = [];
  private readonly ends: Step[] = [];
  private readonly findings = new Map<string, string>();
  private readonly entries = new Map<TestPlan, string>();
  private readonly isolating: readonly string[];
  private readonly senior: string;
  private electrician: string | undefined;
  private stillLive: string | undefined;

  constructor(
    private readonly bench: Bench,
    private readonly of: IsolationProblem,
    private readonly options: DraftOptions,
  ) {
    this.isolating = isolatingSettings(of.shows.prepared);
    this.senior = this.names.take(words.CALL_SENIOR.title).id;
  }

  write(plan: TestPlan): Tree {
    this.entry(plan);
    const first = this.steps.find((step) => step.kind === 'look' || step.kind === 'reading');
    const [found] = this.of.circuits;
    const { complaint, tests, safety, meter } = this.of;
    const probe = tests[complaint]?.probe;
    const passes = first && 'ways' in first ? this.passing(first.ways) : undefined;
    const handoffs = this.handoffs();
    return {
      name: this.options.name,
      title: this.options.title ?? this.bench.title,
      complaint: words.complaintOf(probe?.kind === 'look' ? words.inWords(probe.sign) : (first?.title ?? ''), this.soundSign()),
      benches: [this.options.bench],
      facts: {},
      settings: {},
      meter: showMeterAccuracy(meter),
      ...(first && passes !== undefined && { recheck: { step: first.id, passes } }),
      handoff: this.senior,
      opening: { cautions: found ? [...openingCautions(this.bench, safety, found)] : [], prose: [...words.OPENING(this.bench.title)] },
      steps: [...this.steps, ...this.ends, ...handoffs],
    };
  }

  /** Whether a sound circuit shows the sign of the complaint; undefined where the complaint is a reading. */
  private soundSign(): boolean | undefined {
    const test = this.of.tests[this.of.complaint];
    if (test?.probe.kind !== 'look') return undefined;
    return test.outcomes.outcomes[test.outcomes.of[0]?.[0] ?? 0]?.low === 1;
  }

  /** The way on of the first step that means that nothing is wrong. */
  private passing(ways: readonly Way[]): string | undefined {
    const sound = this.findings.get('');
    return ways.find(({ to }) => to.step === sound)?.on ?? ways[0]?.on;
  }

  /** The step that a plan begins with; written when first asked for. */
  private entry(plan: TestPlan): string {
    const known = this.entries.get(plan);
    if (known !== undefined) return known;
    if (plan.test === undefined) {
      const finding = this.finding(plan);
      this.entries.set(plan, finding);
      return finding;
    }
    const test = this.of.tests[plan.test];
    const setUp = this.of.plans[plan.test * this.of.circuits.length + plan.setUp];
    if (!test || !setUp) return this.senior;
    // The steps of a path stand one after the other: places are taken before what follows is written.
    const chain = this.setUpSteps(setUp.moves);
    const own = this.names.take(words.probeTitle(test.probe));
    this.entries.set(plan, chain[0]?.id ?? own.id);
    const place = this.steps.length;
    this.steps.push(...chain.map(({ step }) => step(own.id)));
    this.link(place, chain.length, own.id);
    const at = this.steps.length;
    // A placeholder keeps the place; what the step leads to is known after it.
    this.steps.push(this.probeStep(test, plan, own, setUp.circuit, []));
    const ways = this.ways(test, plan);
    this.steps[at] = this.probeStep(test, plan, own, setUp.circuit, ways);
    return chain[0]?.id ?? own.id;
  }

  /** Points every set-up step at the one after it. */
  private link(from: number, count: number, last: string): void {
    for (let i = 0; i < count; i += 1) {
      const step = this.steps[from + i];
      const next = i + 1 < count ? this.steps[from + i + 1]?.id : last;
      if (!step || next === undefined) continue;
      if (step.kind === 'act') this.steps[from + i] = { ...step, ways: [{ on: 'done', to: { step: next } }] };
      if (step.kind === 'reading')
        this.steps[from + i] = { ...step, ways: step.ways.map((way, k) => (k === 0 ? { ...way, to: { step: next } } : way)) };
    }
  }

  private setUpSteps(moves: readonly Move[]): readonly { readonly id: string; readonly step: (next: string) => Step }[] {
    const groups: Move[][] = [];
    for (const move of moves) {
      const last = groups.at(-1);
      if (move.kind === 'act' && last?.[0]?.kind === 'act') last.push(move);
      else groups.push([move]);
    }
    return groups.map((group) => {
      const [first] = group;
      if (first?.kind === 'dead') {
        const name = this.names.take(words.deadTitle(first.across));
        return { id: name.id, step: (next: string) => this.deadStep(first.across, name, first.circuit, next) };
      }
      const does = group.flatMap((move) => (move.kind === 'act' ? [move.action] : []));
      const name = this.names.take(words.actTitle(does));
      const minutes = does.reduce((sum, action) => sum + this.of.minutes.action(action), 0);
      return {
        id: name.id,
        step: (next: string): Step => ({
          kind: 'act',
          ...name,
          minutes,
          while: [],
          cautions: [],
          prose: [...words.actProse(does, this.isolating)],
          photos: [],
          does,
          ways: [{ on: 'done', to: { step: next } }],
        }),
      };
    });
  }

  private deadStep(across: readonly [string, string], name: { id: string; title: string }, circuit: Move['circuit'], next: string): ReadingStep {
    this.stillLive ??= this.names.take(words.STILL_LIVE.title).id;
    return {
      kind: 'reading',
      ...name,
      minutes: this.of.minutes.dead,
      while: this.offHolds(circuit),
      cautions: [...deadCautions(this.of.safety, across, circuit)],
      prose: [...words.deadProse(across)],
      photos: [],
      takes: this.supplyOf(across),
      across: [across[0], across[1]],
      proves: 'dead',
      ways: [
        { on: `below ${DEAD_BAND}`, to: { step: next } },
        { on: `above ${DEAD_BAND}`, to: { step: this.stillLive } },
      ],
    };
  }

  /** What would stand on two points with the power on: DC only where it is more than the AC. */
  private supplyOf(across: readonly [string, string]): QuantityKindName {
    const [found] = this.of.circuits;
    if (!found) return 'ac-voltage';
    const volts = (takes: QuantityKindName): number => Math.abs(this.of.shows.showsIn({ kind: 'reading', takes, across }, found, [])) || 0;
    return volts('dc-voltage') > volts('ac-voltage') ? 'dc-voltage' : 'ac-voltage';
  }

  private offHolds(circuit: Move['circuit']): Step['while'] {
    return this.isolating.flatMap((setting) => {
      const state = circuit.settings[setting] ?? '';
      return state !== this.bench.settings[setting]?.[0] ? [{ setting, state }] : [];
    });
  }

  /** What must hold for a probe: the calls as they are for a live one, the power that is off for a dead one; nothing where it does not matter. */
  private holds({ stance }: IsolationTest): Step['while'] {
    if (!stance) return [];
    const off = this.offHolds({ ...stance, meterProved: false, dead: [] });
    if (off.length > 0) return off;
    return Object.entries(stance.settings).flatMap(([setting, state]) => (this.isolating.includes(setting) ? [] : [{ setting, state }]));
  }

  private probeStep(test: IsolationTest, plan: TestPlan, name: { id: string; title: string }, circuit: Move['circuit'], ways: readonly Way[]): Step {
    const { probe } = test;
    const faults = this.faultsOf(plan);
    const isLive = this.offHolds(circuit).length === 0;
    const common = {
      ...name,
      minutes: test.minutes,
      while: this.holds(test),
      prose: [...words.probeProse(probe, faults.map(words.inWords), isLive)],
      photos: [],
      ways: [...ways],
    };
    if (probe.kind === 'look') return { kind: 'look', ...common, cautions: [], sign: probe.sign };
    const cautions = isLive ? readingCautions(this.of.safety, probe.across, circuit) : [];
    const cannot: { cannot?: Target } = cautions.length > 0 ? { cannot: { step: this.callElectrician() } } : {};
    const unit = draftUnit(probe.takes, test.outcomes.outcomes);
    return {
      kind: 'reading',
      ...common,
      cautions: [...cautions],
      takes: probe.takes,
      ...(probe.across && { across: [probe.across[0], probe.across[1]] as [string, string] }),
      ...(probe.at !== undefined && { at: probe.at }),
      ...(probe.input && { input: probe.input }),
      ...(unit !== quantityKind(probe.takes).unit && { unit }),
      ...cannot,
    };
  }

  private ways({ probe, outcomes }: IsolationTest, plan: TestPlan): readonly Way[] {
    const to = new Map(plan.ways.map(({ outcome, plan: next }) => [outcome, next]));
    const target = (outcome: number | undefined): Target => {
      const next = outcome === undefined ? undefined : to.get(outcome);
      return { step: next ? this.entry(next) : this.senior };
    };
    // A look's first label is that the sign is seen.
    if (probe.kind === 'look')
      return [
        { on: words.SEEN, to: target(1) },
        { on: words.NOT_SEEN, to: target(0) },
      ];
    const shown = outcomes.outcomes.flatMap((outcome, number) => (to.has(number) ? [{ outcome, number }] : []));
    return draftBands(probe.takes, shown, draftUnit(probe.takes, outcomes.outcomes)).map(({ on, outcome }) => ({ on, to: target(outcome) }));
  }

  private faultsOf({ states }: TestPlan): readonly string[] {
    return [...new Set(states.flatMap((state) => this.of.states[state]?.fault ?? []))];
  }

  private finding(plan: TestPlan): string {
    const faults = [...this.faultsOf(plan)].sort();
    const key = faults.join('+');
    const known = this.findings.get(key);
    if (known !== undefined) return known;
    if (faults.length > 1) this.ambiguous.push(faults);
    const name = this.names.take(faults.length === 0 ? words.HEALTHY.title : words.findingTitle(faults, (fault) => this.bench.faults[fault]?.says));
    this.findings.set(key, name.id);
    const inOrder = this.repairsInOrder(faults);
    const says = inOrder.map((fault) => this.bench.faults[fault]?.says ?? `${words.asTitle(fault)}.`);
    const parts = [...new Set(inOrder.map((fault) => this.bench.faults[fault]?.part ?? fault))];
    const isWired = parts.some((part) => !UNWIRED.has(this.bench.parts[part]?.kind ?? ''));
    this.ends.push({
      kind: 'finding',
      ...name,
      minutes: 0,
      while: [],
      cautions: [],
      photos: [],
      faults,
      prose: [...(faults.length === 0 ? words.HEALTHY.prose : words.findingProse(says))],
      repair: [...(faults.length === 0 ? words.HEALTHY.repair : words.repairProse(parts, isWired))],
    });
    return name.id;
  }

  /** Faults that nothing tells apart, in the order to try their repairs. A bench does not know what a repair costs: they are taken alike. */
  private repairsInOrder(faults: readonly string[]): readonly string[] {
    const repairs = faults.map((fault) => ({ probability: this.bench.faults[fault]?.weight ?? 0, cost: 1 }));
    return repairOrder(repairs).flatMap((i) => faults[i] ?? []);
  }

  private callElectrician(): string {
    this.electrician ??= this.names.take(words.CALL_ELECTRICIAN.title).id;
    return this.electrician;
  }

  private handoffs(): readonly Step[] {
    const made = [
      [this.electrician, words.CALL_ELECTRICIAN],
      [this.stillLive, words.STILL_LIVE],
      [this.senior, words.CALL_SENIOR],
    ] as const;
    return made.flatMap(([id, { title, to, prose }]): readonly Step[] =>
      id === undefined ? [] : [{ kind: 'handoff', id, title, to, minutes: 0, while: [], cautions: [], photos: [], prose: [...prose] }],
    );
  }
}
