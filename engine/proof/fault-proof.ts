import { factCorners, prepare } from '../bench/index.ts';
import type { CompiledEdition } from '../walk/index.ts';
import { type BenchCase, BenchWalk } from './bench-walk.ts';
import { type CaseEnd, type CaseStep, walkCase } from './walk-case.ts';

/** How the tree does on one fault of one bench. */
export type ProvedFault = {
  readonly id: string;
  readonly bench: string;
  readonly weight: number;
  readonly says: string | undefined;
  /** Houses tried: the corners of the bench's facts. */
  readonly cases: number;
  /** The steps that the walks ended on, by key, and in how many cases each. */
  readonly findings: Readonly<Record<string, number>>;
  /** In every case, every end is a finding that names this fault. */
  readonly right: boolean;
  /** The most faults of this bench that a finding it ended on names; 0 where one end names none or another. */
  readonly group: number;
  /** Means over cases, of the longest end of each. */
  readonly steps: number;
  readonly minutes: number;
};

/** An end that is not right, kept with the case that shows it. */
export type Miss = {
  readonly bench: string;
  readonly fault: string | undefined;
  readonly at: BenchCase;
  readonly end: CaseEnd;
  readonly alone: boolean;
};

export type FaultProof = {
  readonly faults: readonly ProvedFault[];
  /** Benches whose sound circuit walks to 'nothing wrong found' and nowhere else. */
  readonly healthy: Readonly<Record<string, boolean>>;
  readonly misses: readonly Miss[];
  /** Every way that any case took at each step, by step key. */
  readonly taken: ReadonlyMap<string, ReadonlySet<string>>;
  readonly benches: ReadonlyMap<string, BenchWalk>;
};

export type ProofProgress = (done: number, of: number) => boolean | undefined;

/** Whether an end is where a case should end. */
function isRight({ at, endless }: CaseEnd, fault: string | undefined): boolean {
  if (endless || at.step.kind !== 'finding') return false;
  return fault === undefined ? at.step.faults.length === 0 : at.step.faults.includes(fault);
}

/**
 * Walks a tree with every fault of every bench it names, in every corner of the bench's facts, at both ends of the meter's
 * accuracy; and with nothing wrong. `progress` hears how far it is and may stop it by answering false.
 */
export function proveFaults(edition: CompiledEdition, progress: ProofProgress = () => undefined): FaultProof {
  const faults: ProvedFault[] = [];
  const healthy: Record<string, boolean> = {};
  const misses: Miss[] = [];
  const taken = new Map<string, Set<string>>();
  const benches = new Map<string, BenchWalk>();
  const names = edition.root.benches.filter((name) => Object.hasOwn(edition.edition.benches, name));
  const total = names.reduce((sum, name) => sum + Object.keys(edition.edition.benches[name]?.faults ?? {}).length + 1, 0);
  let done = 0;
  const note = ({ step, on }: CaseStep): void => {
    const ways = taken.get(step.key) ?? new Set();
    ways.add(on);
    taken.set(step.key, ways);
  };
  for (const name of names) {
    const bench = edition.edition.benches[name];
    if (!bench) continue;
    const walk = new BenchWalk(edition, name, prepare(bench));
    benches.set(name, walk);
    const corners = factCorners(bench);
    for (const fault of [undefined, ...Object.keys(bench.faults)]) {
      const found: Record<string, number> = {};
      let right = true;
      let group = 1;
      let steps = 0;
      let minutes = 0;
      for (const [corner, facts] of corners.entries()) {
        const at: BenchCase = { fault, facts };
        const { ends, steps: walked } = walkCase(edition, walk, at, `${name} ${fault ?? ''} ${corner}`);
        walked.forEach(note);
        const wrong = ends.filter((end) => !isRight(end, fault));
        if (wrong.length > 0 || ends.length === 0) right = false;
        for (const end of wrong) misses.push({ bench: name, fault, at, end, alone: wrong.length === ends.length });
        for (const end of ends) {
          found[end.at.key] = (found[end.at.key] ?? 0) + 1;
          if (end.at.step.kind === 'finding') group = Math.max(group, end.at.step.faults.filter((f) => Object.hasOwn(bench.faults, f)).length);
        }
        steps += Math.max(0, ...ends.map((end) => end.path.length + 1));
        minutes += Math.max(0, ...ends.map((end) => end.minutes));
      }
      if (fault === undefined) healthy[name] = right;
      else {
        const { weight, says } = bench.faults[fault] ?? { weight: 1, says: undefined };
        const mean = (sum: number): number => sum / corners.length;
        faults.push({
          id: fault,
          bench: name,
          weight,
          says,
          cases: corners.length,
          findings: found,
          right,
          group: right ? group : 0,
          steps: mean(steps),
          minutes: mean(minutes),
        });
      }
      done += 1;
      if (progress(done, total) === false) return { faults, healthy, misses, taken, benches };
    }
  }
  return { faults, healthy, misses, taken, benches };
}
