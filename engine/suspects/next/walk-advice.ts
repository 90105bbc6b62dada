import { type MeterAccuracy, readMeterAccuracy, USUAL_METER } from '../../quantity/index.ts';
import type { FindingStep } from '../../tree/index.ts';
import type { CompiledEdition, Walk } from '../../walk/index.ts';
import { type IsolationProblem, isolationProblem } from '../isolate/isolation-problem.ts';
import { treeMinutes } from '../isolate/tree-minutes.ts';
import type { MinutesModel } from '../isolate/usual-minutes.ts';
import { type Diagnosis, diagnose, SuspectBenches, type Suspects, suspectsOf } from '../posterior/suspects.ts';
import type { Trail } from '../posterior/walk-evidence.ts';
import { type JumpFrom, jumpFor } from './jump-for.ts';
import { type NextOptions, type NextReadings, nextReadings } from './next-readings.ts';
import { benchCandidates, stepCandidates, type WalkCandidate } from './walk-candidates.ts';

/** The finding of the edition that names what is left. */
export type NamedFinding = { readonly tree: string; readonly step: FindingStep; readonly faults: readonly string[]; readonly probability: number };

export type WalkAdvice = {
  readonly suspects: Suspects;
  readonly next: NextReadings;
  /** Where there is nothing more to tell apart, and it is likelier than not that the edition knows the fault. */
  readonly finding: NamedFinding | undefined;
};

export type AdviceOptions = NextOptions & {
  /** `steps`: only what the edition's steps take, so that it can be jumped to. `everything`: all that the benches let be read. */
  readonly among?: 'steps' | 'everything';
};

const NO_MINUTES: MinutesModel = { probe: () => 0, action: () => 0, dead: 0 };

/**
 * Tells a walk what is still possible and what to find out next. One for each edition: it keeps the benches that it has solved, so that the next look at the same
 * walk, or at another of the edition, costs little.
 */
export class WalkAdvisor {
  private readonly benches: SuspectBenches;
  private readonly problems = new Map<string, IsolationProblem | undefined>();
  private readonly meter: MeterAccuracy;

  /** `houses`: as of `SuspectBenches`. */
  constructor(
    readonly edition: CompiledEdition,
    houses = 1,
  ) {
    this.benches = new SuspectBenches(edition, houses);
    const meter = readMeterAccuracy(edition.root.meter);
    this.meter = meter.ok ? meter.value : USUAL_METER;
  }

  /** Names of the benches that a walk's site could be. */
  wirings(walk: Walk): readonly string[] {
    return this.benches.names(walk.snapshot.context);
  }

  /** What a walk leaves possible. Without a trail, how the circuit stood at each reading is told from the path. */
  diagnose(walk: Walk, trail?: Trail): Diagnosis {
    return diagnose(this.benches, walk, trail);
  }

  /** The suspects alone: quick enough for every verdict. */
  suspects(walk: Walk, trail?: Trail): Suspects {
    return suspectsOf(this.diagnose(walk, trail));
  }

  advise(walk: Walk, trail?: Trail, options: AdviceOptions = {}): WalkAdvice {
    const { context } = walk.snapshot;
    const diagnosis = this.diagnose(walk, trail);
    const suspects = suspectsOf(diagnosis);
    const safety = [...diagnosis.benches.keys()].flatMap((name) => this.edition.safety(name) ?? []);
    const among = options.among ?? 'steps';
    const [bench] = diagnosis.benches.values();
    const from: JumpFrom = { circuit: context.circuit, at: context.at, asFound: this.edition.asFound, safety };
    const next = nextReadings(
      diagnosis,
      {
        from,
        candidates: this.candidates(diagnosis, from, among),
        minutes: bench ? treeMinutes(this.edition, bench.prepared) : NO_MINUTES,
      },
      { meter: this.meter, ...options },
    );
    return { suspects, next, finding: suspects.unknown > 0.5 ? undefined : this.finding(next, suspects) };
  }

  private candidates(diagnosis: Diagnosis, from: JumpFrom, among: 'steps' | 'everything'): readonly WalkCandidate[] {
    const { circuit, at } = from;
    // Of two steps that take the same, the one that the walk comes to anyway.
    const isAhead = ({ reached }: WalkCandidate): number => Number([...(reached?.chain ?? []), reached?.step].some((step) => step?.key === at));
    const own = [...stepCandidates(this.edition, circuit)].sort((a, b) => isAhead(b) - isAhead(a));
    if (among === 'steps') return own.filter(({ reached, stance }) => reached && jumpFor(reached, stance, from));
    return [...own, ...[...diagnosis.benches.keys()].flatMap((name) => this.ofBench(name))];
  }

  private ofBench(name: string): readonly WalkCandidate[] {
    if (!this.problems.has(name)) {
      const bench = this.edition.edition.benches[name];
      const safety = this.edition.safety(name);
      this.problems.set(name, bench && isolationProblem(bench, { meter: this.meter, ...(safety && { safety }) }));
    }
    const problem = this.problems.get(name);
    return problem ? benchCandidates(problem, this.edition) : [];
  }

  private finding({ left, states }: NextReadings, suspects: Suspects): NamedFinding | undefined {
    if (left.length === 0) return undefined;
    const faults = [...new Set(states.flatMap((state) => state.faults))];
    const steps = Object.values(this.edition.edition.trees).flatMap((tree) =>
      tree.steps.flatMap((step) => (step.kind === 'finding' ? [{ tree: tree.name, step }] : [])),
    );
    const named = (step: FindingStep): number =>
      step.faults.reduce((sum, fault) => sum + (suspects.faults.find((suspect) => suspect.fault === fault)?.probability ?? 0), 0);
    const sound = faults.length === 0;
    const fits = steps.filter(({ step }) => (sound ? step.faults.length === 0 : step.faults.some((fault) => faults.includes(fault))));
    const [best] = fits.sort((a, b) => named(b.step) - named(a.step) || a.step.faults.length - b.step.faults.length);
    return best && { ...best, faults, probability: sound ? suspects.nothingWrong : named(best.step) };
  }
}
