import type { Edition } from '../../../engine/walk/index.ts';
import type { FrameSuspects, ReplayedFrames } from './replay-frame.ts';

/** A log to replay; `at`: the line looked at, whose suspects come first. Another `look` only says where one looks now. */
export type ReplayRequest =
  | { readonly ask: 'replay'; readonly edition: Edition; readonly lines: readonly unknown[]; readonly at: number }
  | { readonly ask: 'look'; readonly at: number };

export type ReplayAnswer =
  | { readonly stage: 'frames'; readonly replayed: ReplayedFrames }
  | { readonly stage: 'suspects'; readonly at: number; readonly suspects: FrameSuspects };
