import type { Problem } from '../../engine/problem.ts';
import type { Sources } from '../data/fetch-sources.ts';

/** A tree drafted from a bench, written out, with what the draft says of itself. */
export type DraftReport = {
  /** The tree's file. */
  readonly text: string;
  readonly steps: number;
  readonly findings: number;
  /** Expected minutes to the finding over the fault weights, and what no tree over the same readings stays below. */
  readonly minutes: number;
  readonly bound: number;
  readonly method: 'exact' | 'rollout';
  /** Faults that no reading or look of the bench tells apart, in groups, in the bench's words. */
  readonly ambiguous: readonly (readonly string[])[];
  /** The title of the crew's tree whose minutes were counted with; absent where none is about this bench. */
  readonly minutesFrom?: string;
  /** What the checks say of the written file. */
  readonly problems: readonly Problem[];
};

export type DraftRequest = { readonly bench: string; readonly name: string; readonly title: string; readonly sources: Sources };

export type DraftStage = 'reading' | 'gathering' | 'ordering' | 'checking';

export type DraftAnswer =
  /** `opened`: sets of suspects that the ordering has looked at, of the most that it may. */
  | { readonly stage: DraftStage; readonly opened: number; readonly most: number }
  | { readonly stage: 'drafted'; readonly report: DraftReport }
  /** The bench has errors, or nothing to find. */
  | { readonly stage: 'no-draft'; readonly message: string; readonly fix: string; readonly problems: readonly Problem[] };
