import type { Page } from 'playwright';
import {
  asFound,
  type Bench,
  type MeterPlace,
  measure,
  prepare,
  type Situation,
  signsOf,
  solve,
  withJumper,
  withLifted,
  withSetting,
} from '../../../engine/bench/index.ts';
import type { Step } from '../../../engine/tree/index.ts';
import { beginWalk, takeEvent, viewOf, type Walk, type WalkableEdition, type WalkLine } from '../../../engine/walk/index.ts';
import { storedRows } from './stored-rows.ts';

/** The lines of the walk that a page shows, as they are stored on the phone. */
export async function storedLines(page: Page): Promise<readonly WalkLine[]> {
  const id = new URL(page.url()).hash.split('/').at(-1);
  return (await storedRows<WalkLine>(page, 'lines')).filter(({ walk }) => walk === id).toSorted((a, b) => a.seq - b.seq);
}

/** What turning, putting back and the like take, minutes; common practice, as the suggestions count. */
const TURN = 1;
const OFF = 0.5;

/** A circuit with one fault in it: what a meter or an eye finds there, as the walk's log has the circuit by then. */
export class HiddenFault {
  private readonly prepared;

  constructor(
    private readonly edition: WalkableEdition,
    private readonly bench: Bench,
    private readonly fault: string,
  ) {
    this.prepared = prepare(bench);
  }

  /** Each event of a log with the walk before it. */
  private *taken(lines: readonly WalkLine[]): Generator<{ readonly line: WalkLine; readonly before: Walk; readonly after: Walk }> {
    let walk = beginWalk(this.edition, lines[0]?.walk ?? '');
    for (const line of lines) {
      const taken = takeEvent(walk, line.event, line);
      if (!taken.ok) throw new Error(`line ${line.seq}: ${taken.problem.code}`);
      yield { line, before: walk, after: taken.value.walk };
      walk = taken.value.walk;
    }
  }

  walkOf(lines: readonly WalkLine[]): Walk {
    return [...this.taken(lines)].at(-1)?.after ?? beginWalk(this.edition, '');
  }

  /** The answer to the open step: what is typed, or the label of what is seen; undefined for an act. */
  answer(lines: readonly WalkLine[]): string | undefined {
    const walk = this.walkOf(lines);
    const { step } = viewOf(walk);
    if (step?.kind !== 'look' && step?.kind !== 'reading') return undefined;
    let situation: Situation = { ...asFound(this.bench), faults: [this.fault] };
    const { settings, jumpers, lifted } = walk.snapshot.context.circuit;
    const held = Object.fromEntries(step.while.map(({ setting, state }) => [setting, state]));
    for (const [setting, state] of Object.entries({ ...settings, ...held }))
      if (Object.hasOwn(this.bench.settings, setting)) situation = withSetting(situation, setting, state);
    for (const [a, b] of jumpers) situation = withJumper(situation, a, b);
    for (const lead of lifted) situation = withLifted(situation, lead);
    const solved = solve(this.prepared, situation);
    if (!solved.ok) throw new Error(solved.reason);
    if (step.kind === 'look') return step.ways[step.sign !== undefined && signsOf(solved)[step.sign] ? 0 : 1]?.on;
    const place: MeterPlace = step.across ? { across: step.across } : { at: step.at ?? '' };
    const reading = measure(solved, step.takes, place, step.input ? { input: step.input } : {});
    if (!reading.ok) throw new Error(`${step.id}: ${reading.code}`);
    return /OL/.test(reading.shown) ? 'OL' : (/^[\d.]+/.exec(reading.shown)?.[0] ?? reading.shown);
  }

  /** Minutes that a call took by its log: each step that was worked by the minutes of its tree, and what was switched or put back on the way. */
  minutes(lines: readonly WalkLine[]): number {
    let minutes = 0;
    for (const { line, before } of this.taken(lines)) {
      const view = viewOf(before);
      const { event } = line;
      if (worked(event, view.step)) minutes += view.step?.minutes ?? 0;
      if (event.type === 'did' && event.does !== undefined) minutes += TURN;
      if (event.type === 'put-back') minutes += view.putBack.find(({ key }) => key === event.item)?.kind === 'setting' ? TURN : OFF;
    }
    return minutes;
  }
}

function worked(event: WalkLine['event'], step: Step | undefined): boolean {
  if (event.type === 'read' || event.type === 'looked') return true;
  if (event.type === 'told') return step?.kind === 'ask' && step.fact === event.fact;
  return event.type === 'did' && event.does === undefined;
}
