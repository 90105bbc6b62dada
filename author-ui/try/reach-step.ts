import { answersOf, viewOf } from '../../engine/walk/index.ts';
import type { TryCase } from './bench-shows.ts';
import { askedStep, nextEvent, type TryRun, took, visitOf } from './try-run.ts';

// A tree of a thousand steps has walks of some dozens; what is not reached in so many is not reached.
const MOST_STATES = 1500;

/**
 * The shortest walk from a run's start to a step, with what the bench shows. Where the bench cannot say what is seen, every answer is
 * tried. Undefined where no walk on this bench comes there.
 */
export function walkTo(start: TryRun, key: string, base: TryCase): TryRun | undefined {
  const seen = new Set<string>();
  const waiting: TryRun[] = [start];
  for (let at = 0; at < waiting.length && at < MOST_STATES; at += 1) {
    const run = waiting[at];
    if (!run) break;
    if (run.walk.snapshot.context.at === key) return run;
    const here = visitOf(run.walk) ?? '';
    if (seen.has(here)) continue;
    seen.add(here);
    waiting.push(...stepsFrom(run, base));
  }
  return undefined;
}

/** The runs that stand one step further. */
function stepsFrom(start: TryRun, base: TryCase): readonly TryRun[] {
  const length = pathLength(start);
  let run = start;
  for (;;) {
    const { phase } = viewOf(run.walk);
    const event = phase === 'work' || phase === 'verdict' ? nextEvent(run, base) : undefined;
    if (!event) break;
    const result = took(run, event);
    if (!result.ok) return [];
    run = result.run;
    if (pathLength(run) > length) return [run];
  }
  const view = viewOf(run.walk);
  if (view.phase !== 'work' || askedStep(run.walk, view)?.step.kind !== 'look') return [];
  return answersOf(run.walk).flatMap(({ on }) => {
    const seen = took(run, { type: 'looked', saw: on });
    const next = seen.ok ? took(seen.run, { type: 'went-on' }) : seen;
    return next.ok ? [next.run] : [];
  });
}

const pathLength = ({ walk }: TryRun): number => walk.snapshot.context.path.length;
