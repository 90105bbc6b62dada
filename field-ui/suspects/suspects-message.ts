import type { Edition, WalkLine } from '../../engine/walk/index.ts';
import type { AdviceReport, SuspectsReport } from './suspects-report.ts';

/** To the worker: the edition once, then the log after every entry. */
export type SuspectsRequest =
  | { readonly ask: 'edition'; readonly edition: Edition }
  | { readonly ask: 'walk'; readonly request: number; readonly id: string; readonly lines: readonly WalkLine[] };

/** From the worker, for the request that it names: first the suspects, then what to read next. */
export type SuspectsAnswer =
  | { readonly stage: 'suspects'; readonly request: number; readonly report: SuspectsReport }
  | { readonly stage: 'advice'; readonly request: number; readonly advice: AdviceReport }
  | { readonly stage: 'failed'; readonly request: number; readonly detail: string };
