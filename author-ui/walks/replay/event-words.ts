import { unitSign } from '../../../engine/quantity/index.ts';
import type { PathEntry, WalkEvent } from '../../../engine/walk/index.ts';
import { plainName } from '../walk-words.ts';

/** What a line of a log says that was done, in a few words. `back`: the title of the step gone back to. `unit`: what a bare number was typed in. */
export function eventWords(event: WalkEvent, back?: string, unit?: string): string {
  switch (event.type) {
    case 'opened':
      return event.site === undefined ? 'Opened the call' : `Opened the call at ${event.site}`;
    case 'told':
      return `Told ${plainName(event.fact)}: ${event.typed}`;
    case 'caution-read':
      return `Read caution ${event.caution + 1}`;
    case 'read':
      return unit !== undefined && /^[-+]?[\d.,]+$/.test(event.typed.trim()) ? `Read ${event.typed} ${unitSign(unit)}` : `Read ${event.typed}`;
    case 'looked':
      return `Saw: ${event.saw}`;
    case 'did':
      return event.does === undefined ? 'Did it' : `Set up: ${event.does}`;
    case 'could-not':
      return event.why === undefined ? 'Could not do it' : `Could not do it: ${event.why}`;
    case 'went-on':
      return event.tooClose ? 'Went on, though too close to call' : 'Went on';
    case 'stepped-back':
      return back === undefined ? 'Stepped back' : `Stepped back to “${back}”`;
    case 'jumped':
      return `Jumped to ${plainName(event.step)}${event.why === undefined ? '' : `: ${event.why}`}`;
    case 'noted':
      return `Noted: ${event.text}`;
    case 'photographed':
      return event.ask === undefined ? 'Took a photo' : `Took a photo: ${event.ask}`;
    case 'paused':
      return 'Paused';
    case 'resumed':
      return 'Went on after the pause';
    case 'found':
      return 'Accepted the finding';
    case 'repaired':
      return event.done ? 'Repaired it' : 'Did not repair it yet';
    case 'put-back':
      return `Put back ${event.item}`;
    case 'rechecked':
      return `Tried the complaint again: ${event.saw ?? event.typed ?? ''}`;
    case 'closed':
      return 'Closed the call';
  }
}

/** The step that a line stepped back to, from the path before it. */
export const backTitle = (event: WalkEvent, before: readonly PathEntry[] | undefined): string | undefined =>
  event.type === 'stepped-back' ? before?.[event.to]?.title : undefined;
