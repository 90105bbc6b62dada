import { initialTransition, type SnapshotFrom, transition } from 'xstate';
import { failure, type Result, success } from '../result.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { canonicalHash } from './canonical-hash.ts';
import { type CompiledEdition, compileEdition } from './compiled-edition.ts';
import type { Edition } from './edition.ts';
import type { Refusal } from './refusal.ts';
import { refusalOf } from './refusal-of.ts';
import { type WalkEvent, walkEventSchema } from './walk-event.ts';
import type { WalkLine } from './walk-line.ts';
import { type WalkMachine, walkMachine } from './walk-machine.ts';
import { walkPosition } from './walk-position.ts';

/** An edition with its machine, worked out once and shared by all its walks. */
export type WalkableEdition = { readonly hash: string; readonly compiled: CompiledEdition; readonly machine: WalkMachine };

/** One walk as it stands: plain values, replaced by each event and never changed. */
export type Walk = {
  readonly id: string;
  readonly edition: WalkableEdition;
  readonly snapshot: SnapshotFrom<WalkMachine>;
  /** The number of lines in the log, and the hash of the last. */
  readonly length: number;
  readonly head: string;
};

/** When something happened: ISO 8601 with offset, and milliseconds of a clock that never runs back. */
export type Stamp = { readonly time: string; readonly mono: number };

export const NO_LINE_BEFORE = '0'.repeat(64);

/** The name of an edition: the SHA-256 of its canonical JSON. */
export const editionHash = (edition: Edition): string => canonicalHash(edition);

/** Makes an edition walkable. Slow enough (milliseconds) to be done once an edition, not once a walk. */
export function walkableEdition(edition: Edition): WalkableEdition {
  const compiled = compileEdition(edition, TRADE_FUNCTIONS);
  return { hash: editionHash(edition), compiled, machine: walkMachine(compiled) };
}

/** A walk that has no line yet; `opened` is its first event. */
export function beginWalk(edition: WalkableEdition, id: string): Walk {
  const [snapshot] = initialTransition(edition.machine);
  return { id, edition, snapshot, length: 0, head: NO_LINE_BEFORE };
}

/** The walk's machine after an event; undefined where it refuses. */
export function moved(walk: Walk, event: WalkEvent): SnapshotFrom<WalkMachine> | undefined {
  if (walk.snapshot.status !== 'active' || !walk.snapshot.can(event)) return undefined;
  const [next] = transition(walk.edition.machine, walk.snapshot, event);
  return next.status === 'error' ? undefined : next;
}

/**
 * Takes one event: the walk after it, and the line to write before the screen moves on. Where the walk refuses, why; the
 * walk given is then still the walk. `event` may come from anywhere: it is checked here.
 */
export function takeEvent(walk: Walk, input: unknown, stamp: Stamp): Result<{ readonly walk: Walk; readonly line: WalkLine }, Refusal> {
  const parsed = walkEventSchema.safeParse(input);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    return failure({ code: 'not-an-event', detail: issue ? `${issue.path.join('.') || 'event'}: ${issue.message}` : 'event' });
  }
  const event = parsed.data;
  const snapshot = moved(walk, event);
  if (!snapshot) {
    const { compiled } = walk.edition;
    const { context } = walk.snapshot;
    return failure(refusalOf(compiled, walkPosition(compiled, walk.snapshot.value, context), context, event));
  }
  const unsealed: Omit<WalkLine, 'hash'> = {
    walk: walk.id,
    seq: walk.length,
    time: stamp.time,
    mono: stamp.mono,
    edition: walk.edition.hash,
    event: asJudged(event, snapshot),
    before: walk.head,
  };
  const line = { ...unsealed, hash: canonicalHash(unsealed) };
  return success({ walk: { ...walk, snapshot, length: walk.length + 1, head: line.hash }, line });
}

/** The event as it is logged: a reading carries the verdict that it was given. */
export function asJudged(event: WalkEvent, after: SnapshotFrom<WalkMachine>): WalkEvent {
  if (event.type === 'read') {
    const judged = after.context.verdict?.judged;
    return { type: 'read', typed: event.typed, ...(judged && { judged }) };
  }
  if (event.type === 'rechecked') {
    const judged = after.context.rechecks.at(-1)?.judged;
    return { ...event, ...(judged && { judged }) };
  }
  return event;
}
