import type { Problem } from '../../engine/problem.ts';
import type { Edition } from '../../engine/walk/index.ts';
import type { Sources } from '../data/fetch-sources.ts';
import type { ProofReport } from './proof-report.ts';
import type { Replay } from './replay.ts';

/** One case that can be replayed: a fault (or nothing wrong) on a bench, and the step that it ends on. */
export type CaseAsked = { readonly bench: string; readonly fault: string | undefined; readonly end: string };

export type ProofRequest =
  | { readonly ask: 'prove'; readonly name: string; readonly sources: Sources }
  | { readonly ask: 'replay'; readonly which: CaseAsked };

export type ProofAnswer =
  /** The files are read; now every path is searched for what could hurt someone. */
  | { readonly stage: 'paths' }
  | { readonly stage: 'faults'; readonly done: number; readonly of: number }
  | { readonly stage: 'proved'; readonly report: ProofReport; readonly edition: Edition; readonly hash: string }
  /** Files with errors are not proved. */
  | { readonly stage: 'not-proved'; readonly problems: readonly Problem[]; readonly why?: string }
  | { readonly stage: 'replayed'; readonly which: CaseAsked; readonly replay: Replay | undefined };
