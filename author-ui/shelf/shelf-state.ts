import type { Problem } from '../../engine/problem.ts';
import type { ShelfTree } from '../data/read-shelf.ts';

/** How a tree stands: what can be walked, and what is wrong with the source as it is now. */
export type ShelfState = {
  /** First eight digits of the edition's hash; absent where there is nothing to walk. */
  readonly edition?: string;
  readonly errors: number;
  readonly warnings: number;
};

export const severityCount = (problems: readonly Problem[], severity: Problem['severity']): number =>
  problems.filter((problem) => problem.severity === severity).length;

export function shelfState({ edition, problems }: ShelfTree): ShelfState {
  const counts = { errors: severityCount(problems, 'error'), warnings: severityCount(problems, 'warning') };
  return edition ? { edition: edition.hash.slice(0, 8), ...counts } : counts;
}

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** `2 errors, 1 warning`, or `no problems`. */
export function problemsText({ errors, warnings }: Pick<ShelfState, 'errors' | 'warnings'>): string {
  const parts = [...(errors > 0 ? [counted(errors, 'error')] : []), ...(warnings > 0 ? [counted(warnings, 'warning')] : [])];
  return parts.length > 0 ? parts.join(', ') : 'no problems';
}
