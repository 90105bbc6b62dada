import type { Result } from '../result.ts';
import type { Edition } from './edition.ts';
import type { Refusal } from './refusal.ts';
import type { WalkEvent } from './walk-event.ts';
import type { WalkLine } from './walk-line.ts';
import type { WalkView } from './walk-view.ts';

/** Opaque to callers: a walk's edition, machine state and log head. */
export type Walk = { readonly id: string; readonly edition: Edition; readonly editionHash: string };

export type Stamp = { readonly time: string; readonly mono: number };

/** CONTRACT (being built): begin a walk (not yet logged: send `opened` first). */
export declare function beginWalk(edition: Edition, editionHash: string, id: string): Walk;
/** One event: the walk after it and the log line to write before the screen moves; or why it is refused, walk unchanged. */
export declare function takeEvent(walk: Walk, event: WalkEvent, stamp: Stamp): Result<{ walk: Walk; line: WalkLine }, Refusal>;
export declare function viewOf(walk: Walk): WalkView;
export declare function replayLog(
  edition: Edition,
  editionHash: string,
  lines: readonly unknown[],
): { walk: Walk; problems: readonly unknown[]; brokenAt?: number };
