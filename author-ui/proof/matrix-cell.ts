import type { ProofEnd } from './proof-report.ts';

/** How one fault ends on one step, over all its cases. */
export type CellKind =
  /** The finding names this fault and no other. */
  | 'right'
  /** The finding names this fault among others. */
  | 'among'
  /** The finding names another, or says that nothing is wrong. */
  | 'wrong'
  /** The tree hands it on, or goes round for ever. */
  | 'unsolved';

export type MatrixCell = { readonly kind: CellKind; readonly count: number; readonly group: number };

/** What an end means for a fault; `fault` undefined is the sound circuit, which should end where nothing is named. */
export function cellOf(end: ProofEnd, fault: string | undefined, ofBench: ReadonlySet<string>, count: number): MatrixCell {
  if (end.kind !== 'finding') return { kind: 'unsolved', count, group: 0 };
  if (fault === undefined) return { kind: end.names.length === 0 ? 'right' : 'wrong', count, group: 0 };
  if (!end.names.includes(fault)) return { kind: 'wrong', count, group: 0 };
  const group = end.names.filter((name) => ofBench.has(name)).length;
  return { kind: group > 1 ? 'among' : 'right', count, group };
}

/** What a cell says: a sign that differs in shape, and a word. */
export const CELL_SIGNS: Readonly<Record<CellKind, { readonly sign: string; readonly word: string; readonly about: string }>> = {
  right: { sign: '●', word: 'right', about: 'the finding names this fault alone' },
  among: { sign: '◐', word: 'one of', about: 'the finding names this fault among others' },
  wrong: { sign: '✕', word: 'wrong', about: 'the finding names another fault, or nothing' },
  unsolved: { sign: '▢', word: 'unsolved', about: 'handed on, or round for ever' },
};

export const cellText = ({ kind, group }: MatrixCell): string => (kind === 'among' ? `one of ${group}` : CELL_SIGNS[kind].word);
