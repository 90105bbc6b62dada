import type { Bench } from '../../bench/index.ts';
import type { CompiledEdition, Walk } from '../../walk/index.ts';
import { BenchShows } from '../observe/bench-shows.ts';
import type { Evidence } from './evidence.ts';
import { type Hypothesis, hypotheses } from './hypotheses.ts';
import { type Posterior, posteriorOf } from './posterior.ts';
import { evidenceOf, knownFacts, type Trail, type WalkContext } from './walk-evidence.ts';

/** One fault that is still possible, over all wirings that the site could have. */
export type Suspect = {
  readonly fault: string;
  /** In plain words, where the bench has them. */
  readonly says: string | undefined;
  readonly probability: number;
  readonly benches: Readonly<Record<string, number>>;
  /** Its share that has it beside a fault that was repaired already. */
  readonly second: number;
};

/**
 * What does not fit. `nothing-predicts`: no fault of these benches gives this reading. `does-not-fit`: some fault would, but not one that fits
 * everything else that was found.
 */
export type Contradiction = {
  readonly code: 'nothing-predicts' | 'does-not-fit';
  readonly evidence: Evidence;
  /** The likeliest fault, which it speaks against. */
  readonly favourite: string | undefined;
};

export type Suspects = {
  /** Most likely first. */
  readonly faults: readonly Suspect[];
  readonly nothingWrong: number;
  /** Something that these benches do not know. */
  readonly unknown: number;
  readonly contradictions: readonly Contradiction[];
  /** Faults that were repaired and did not help. */
  readonly excluded: readonly string[];
  readonly wirings: Readonly<Record<string, number>>;
};

/** A walk seen as a diagnosis: what could be wrong, what was found out, and how likely each is now. */
export type Diagnosis = {
  readonly benches: ReadonlyMap<string, BenchShows>;
  readonly hypotheses: readonly Hypothesis[];
  readonly evidence: readonly Evidence[];
  readonly excluded: readonly string[];
  readonly posterior: Posterior;
};

/** Keeps solved benches from one look at a walk to the next; one for each edition. */
export class SuspectBenches {
  private readonly kept = new Map<string, BenchShows>();

  /** `houses`: how many houses are kept of each bench, the last ones looked at. A call knows one; who goes through many calls meets the same again. */
  constructor(
    readonly edition: CompiledEdition,
    private readonly houses = 1,
  ) {}

  /** The wirings that the site could have: the one told, else all of the tree that the walk is in. */
  names({ facts, at }: WalkContext): readonly string[] {
    const { edition } = this;
    const tree = (at === undefined ? undefined : edition.steps.get(at)?.tree) ?? edition.root;
    const named = tree.benches.length > 0 ? tree.benches : edition.root.benches;
    const told = edition.wiring === undefined ? undefined : facts[edition.wiring]?.typed;
    return told !== undefined && named.includes(told) ? [told] : named;
  }

  of(context: WalkContext): ReadonlyMap<string, BenchShows> {
    const known = knownFacts(context);
    return new Map(
      this.names(context).flatMap((name) => {
        const bench = this.edition.edition.benches[name];
        return bench
          ? [[name, this.shows(name, bench, Object.fromEntries(Object.entries(known).filter(([fact]) => Object.hasOwn(bench.facts, fact))))]]
          : [];
      }),
    );
  }

  private shows(name: string, bench: Bench, known: Readonly<Record<string, number>>): BenchShows {
    const key = `${name} ${JSON.stringify(known)}`;
    const shows = this.kept.get(key) ?? new BenchShows(bench, known);
    // A fact told makes what was solved without it of no more use to the same call.
    this.kept.delete(key);
    this.kept.set(key, shows);
    const own = [...this.kept.keys()].filter((each) => each.startsWith(`${name} `));
    for (const old of own.slice(0, Math.max(0, own.length - this.houses))) this.kept.delete(old);
    return shows;
  }
}

/** Works out what a walk leaves possible. Without a trail, how the circuit stood is told from the path. */
export function diagnose(benches: SuspectBenches, walk: Walk, trail?: Trail): Diagnosis {
  const { context } = walk.snapshot;
  return diagnosisOf(benches.of(context), evidenceOf(walk, trail), context.excluded);
}

export function diagnosisOf(benches: ReadonlyMap<string, BenchShows>, evidence: readonly Evidence[], excluded: readonly string[] = []): Diagnosis {
  const all = hypotheses(Object.fromEntries([...benches].map(([name, { bench }]) => [name, bench])), excluded);
  return { benches, hypotheses: all, evidence, excluded, posterior: posteriorOf(benches, all, evidence) };
}

/** The diagnosis for a screen: faults by name with their probabilities, and what does not fit. */
export function suspectsOf({ benches, hypotheses: all, posterior, evidence, excluded }: Diagnosis): Suspects {
  const found = new Map<string, { says: string | undefined; probability: number; benches: Record<string, number>; second: number }>();
  const wirings: Record<string, number> = {};
  let nothingWrong = 0;
  for (const [i, { bench, faults }] of all.entries()) {
    const probability = posterior.probabilities[i] ?? 0;
    wirings[bench] = (wirings[bench] ?? 0) + probability;
    const left = faults.filter((fault) => !excluded.includes(fault));
    if (left.length === 0) nothingWrong += probability;
    for (const fault of left) {
      const entry = found.get(fault) ?? { says: benches.get(bench)?.bench.faults[fault]?.says, probability: 0, benches: {}, second: 0 };
      entry.probability += probability;
      entry.benches[bench] = (entry.benches[bench] ?? 0) + probability;
      if (faults.length > 1) entry.second += probability;
      found.set(fault, entry);
    }
  }
  const faults = [...found].map(([fault, entry]): Suspect => ({ fault, ...entry })).sort((a, b) => b.probability - a.probability);
  return { faults, nothingWrong, unknown: posterior.unknown, contradictions: contradictionsOf(all, posterior, evidence), excluded, wirings };
}

function contradictionsOf(all: readonly Hypothesis[], posterior: Posterior, evidence: readonly Evidence[]): readonly Contradiction[] {
  const { probabilities, fits, expected } = posterior;
  const favourite = all[probabilities.indexOf(Math.max(...probabilities))]?.faults.at(-1);
  return evidence.flatMap((piece, i): readonly Contradiction[] => {
    if (fits[i]?.every((value) => value < 1) ?? false) return [{ code: 'nothing-predicts', evidence: piece, favourite }];
    return (expected[i] ?? 1) < HALF_FITS ? [{ code: 'does-not-fit', evidence: piece, favourite }] : [];
  });
}

// A look at a sign fits everything by half at least, by chance.
const HALF_FITS = 0.5;
