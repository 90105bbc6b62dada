import { showAction } from '../../engine/tree/index.ts';
import { circuitKey, refusalWords, takeEvent, viewOf, type Walk, type WalkEvent, type WalkView } from '../../engine/walk/index.ts';
import { answering, benchShows, type TryCase } from './bench-shows.ts';
import type { BenchShows, RefusedMove, TryMove, TrySetup } from './try-state.ts';

/** A walk that is tried, and every step that it stood on with the circuit as it was. */
export type TryRun = { readonly walk: Walk; readonly visits: readonly string[] };

export type Taken = { readonly ok: true; readonly run: TryRun } | { readonly ok: false; readonly refused: RefusedMove };

// A try is not kept, so it needs no true time.
const STAMP = { time: '1970-01-01T00:00:00Z', mono: 0 };

/** Takes one event, and reads the cautions of the step that it leads to: their author knows them. */
export function took(run: TryRun, event: WalkEvent): Taken {
  const taken = takeEvent(run.walk, event, STAMP);
  if (!taken.ok) return { ok: false, refused: refusalWords(taken.problem) };
  let { walk } = taken.value;
  for (;;) {
    const view = viewOf(walk);
    const unread = view.phase === 'cautions' || view.phase === 'opening' ? view.cautions.findIndex(({ mustRead, read }) => mustRead && !read) : -1;
    const next = unread < 0 ? undefined : takeEvent(walk, { type: 'caution-read', caution: unread }, STAMP);
    if (!next?.ok) break;
    walk = next.value.walk;
  }
  const visit = visitOf(walk);
  // A tree that is walked again after a recheck that failed is walked anew.
  if (event.type === 'rechecked') return { ok: true, run: { walk, visits: visit === undefined ? [] : [visit] } };
  const before = run.walk.snapshot.context;
  const moved = visit !== undefined && (before.at === undefined || walk.snapshot.context.path.length !== before.path.length);
  return { ok: true, run: { walk, visits: moved ? [...run.visits, visit] : run.visits } };
}

/** The step that a walk stands on, with the circuit. */
export function visitOf({ snapshot: { context } }: Walk): string | undefined {
  return context.at === undefined ? undefined : `${context.at} ${circuitKey(context.circuit)}`;
}

/** Whether the walk stands where it stood before, with nothing changed since. */
export const goesRound = ({ visits }: TryRun): boolean => visits.slice(0, -1).includes(visits.at(-1) ?? '');

/** The case as it stands: the fault is gone once a finding that names it was repaired. */
export function caseNow(setup: TrySetup, base: TryCase, walk: Walk): TryCase {
  const { repaired, at } = walk.snapshot.context;
  const step = at === undefined ? undefined : walk.edition.compiled.steps.get(at)?.step;
  const cured = repaired?.done === true && step?.kind === 'finding' && setup.fault !== undefined && step.faults.includes(setup.fault);
  return cured ? { ...base, at: { ...base.at, fault: undefined } } : base;
}

/** The step that the walk asks about now: the open one, or that of the recheck. */
export function askedStep(walk: Walk, view: WalkView) {
  const { compiled } = walk.edition;
  const key = view.phase === 'recheck' ? compiled.recheck?.key : walk.snapshot.context.at;
  return key === undefined ? undefined : compiled.steps.get(key);
}

export function showsNow(run: TryRun, view: WalkView, now: TryCase): BenchShows {
  const asked = askedStep(run.walk, view);
  return asked ? benchShows(run.walk.edition.compiled, asked, run.walk.snapshot.context.circuit, now) : { kind: 'nothing-to-show' };
}

/** The one thing that comes next with what the bench shows; undefined where only the author can say. Settings that the step needs come first. */
export function nextEvent(run: TryRun, now: TryCase): WalkEvent | undefined {
  const view = viewOf(run.walk);
  const [hold] = view.unmet;
  const asked = askedStep(run.walk, view);
  switch (view.phase) {
    case 'verdict':
      return { type: 'went-on', ...(view.verdict?.tooClose && { tooClose: true }) };
    case 'work':
    case 'recheck': {
      if (!asked) return undefined;
      if (hold) return { type: 'did', does: showAction({ do: 'turn', ...hold }) };
      if (asked.step.kind === 'act') return { type: 'did' };
      const shows = showsNow(run, view, now);
      const text = shows.kind === 'reading' ? shows.shown : shows.kind === 'answer' ? shows.on : undefined;
      if (text === undefined) return undefined;
      if (view.phase === 'work') return answering(asked.step, text);
      return asked.step.kind === 'reading' ? { type: 'rechecked', typed: text } : { type: 'rechecked', saw: text };
    }
    case 'finding':
      return { type: 'found' };
    case 'handoff':
      return { type: 'went-on' };
    case 'repair':
      return { type: 'repaired', done: true };
    case 'put-back': {
      // The list is in the order to do it, but what is live then may want another.
      const item = view.putBack.find(({ key }) => takeEvent(run.walk, { type: 'put-back', item: key }, STAMP).ok) ?? view.putBack[0];
      return item && { type: 'put-back', item: item.key };
    }
    case 'closing':
      return { type: 'closed' };
    default:
      return undefined;
  }
}

const NEEDS_AUTHOR: RefusedMove = {
  message: 'The bench cannot say what a tech would find here.',
  fix: 'Choose or type what is found, and go on from there.',
};

const MOST_FOLLOWED = 500;

/** Takes a move: the run after it, with the moves that it came to. */
export function moved(
  start: TryRun,
  move: TryMove,
  setup: TrySetup,
  base: TryCase,
): { readonly run: TryRun; readonly taken: readonly TryMove[]; readonly refused?: RefusedMove } {
  if (move.do === 'event') {
    const result = took(start, move.event);
    return result.ok ? { run: result.run, taken: [move] } : { run: start, taken: [], refused: result.refused };
  }
  const step = (run: TryRun): Taken => {
    const event = nextEvent(run, caseNow(setup, base, run.walk));
    return event ? took(run, event) : { ok: false, refused: NEEDS_AUTHOR };
  };
  if (move.do === 'as-shown') {
    const result = step(start);
    return result.ok ? { run: result.run, taken: [move] } : { run: start, taken: [], refused: result.refused };
  }
  const taken: TryMove[] = [];
  let run = start;
  while (taken.length < MOST_FOLLOWED) {
    const { phase } = viewOf(run.walk);
    if (phase !== 'work' && phase !== 'verdict') break;
    if (phase === 'work' && taken.length > 0 && goesRound(run)) break;
    const result = step(run);
    if (!result.ok) return { run, taken, refused: result.refused };
    run = result.run;
    taken.push({ do: 'as-shown' });
  }
  return { run, taken };
}
