import type { PreparedBench } from './prepare.ts';
import type { Solution, Solved } from './solution.ts';
import { solve } from './solve.ts';

// The state of a fuse that carries nothing.
const BLOWN = 0;

/** The places of a bench's fuses among its parts. */
export const fuseParts = ({ index }: PreparedBench): readonly number[] =>
  index.parts.flatMap(({ known }, part) => (known.spec.kind === 'fuse' ? [part] : []));

export const isBlown = ({ states }: Solved, part: number): boolean => states[part] === BLOWN;

/** The fuses that are blown in a circuit, by name. */
export const blownFuses = (solved: Solved): readonly string[] => {
  const { prepared } = solved.circuit;
  return fuseParts(prepared).flatMap((part) => (isBlown(solved, part) ? [prepared.index.parts[part]?.name ?? ''] : []));
};

/** A circuit with these fuses blown as well: what had blown before stays blown. */
export function withBlownFuses(solved: Solved, fuses: readonly number[]): Solution {
  const states = Int8Array.from(solved.states);
  for (const part of fuses) states[part] = BLOWN;
  return solve(solved.circuit.prepared, solved.situation, { ...solved, states });
}
