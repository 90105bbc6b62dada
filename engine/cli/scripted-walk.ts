import { failure, type Result, success } from '../result.ts';
import { logLines, refusalWords, type Stamp, takeEvent, viewOf, type Walk, type WalkLine } from '../walk/index.ts';

export type ScriptProblem = { readonly line: number; readonly event: unknown; readonly message: string; readonly fix: string };

type Effects = { readonly stamp: () => Stamp; readonly write: (line: WalkLine) => void };

/**
 * Walks a script of events, one JSON object a line. With `brisk`, cautions are read and verdicts gone on from without a
 * line of their own, so that a script holds only what the tech finds. Stops at the first event that is refused.
 */
export function scriptedWalk(
  start: Walk,
  script: string,
  brisk: boolean,
  effects: Effects,
): Result<Walk, { readonly walk: Walk; readonly problem: ScriptProblem }> {
  let walk = start;
  const take = (event: unknown): ReturnType<typeof takeEvent> => {
    const taken = takeEvent(walk, event, effects.stamp());
    if (taken.ok) {
      effects.write(taken.value.line);
      walk = taken.value.walk;
    }
    return taken;
  };
  for (const [line, event] of logLines(script).entries()) {
    if (brisk) for (let due = dueFirst(walk, event); due !== undefined; due = dueFirst(walk, event)) if (!take(due).ok) break;
    const taken = take(event);
    if (!taken.ok) return failure({ walk, problem: { line: line + 1, event, ...refusalWords(taken.problem) } });
  }
  if (brisk) for (let due = dueFirst(walk, undefined); due !== undefined; due = dueFirst(walk, undefined)) if (!take(due).ok) break;
  return success(walk);
}

const typeOf = (event: unknown): unknown => (typeof event === 'object' && event !== null && 'type' in event ? event.type : undefined);

// The events that a brisk walk takes by itself before what the script says.
function dueFirst(walk: Walk, event: unknown): unknown {
  const type = typeOf(event);
  if (walk.length === 0) return type === 'opened' ? undefined : { type: 'opened' };
  const view = viewOf(walk);
  if (view.paused || type === 'caution-read' || type === 'went-on' || type === 'noted') return undefined;
  const unread = view.cautions.findIndex(({ mustRead, read }) => mustRead && !read);
  if ((view.phase === 'opening' || view.phase === 'cautions') && unread >= 0) return { type: 'caution-read', caution: unread };
  if (view.phase === 'opening' && type !== 'told') return { type: 'went-on' };
  // A second reading, look or fact on the same step is the tech trying again, not the next step's.
  if (view.phase === 'verdict' && type !== 'stepped-back' && type !== 'jumped' && type !== 'could-not')
    return { type: 'went-on', ...(view.verdict?.tooClose && { tooClose: true }) };
  return undefined;
}
