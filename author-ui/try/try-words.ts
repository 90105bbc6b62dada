import { type QuantityKindName, showQuantity } from '../../engine/quantity/index.ts';
import { type Action, showHold } from '../../engine/tree/index.ts';
import type { Judged, PutBackItem, WalkOutcome } from '../../engine/walk/index.ts';
import { rangeWords } from '../../shared/ui/band-words.ts';
import { turnBackWords } from '../../shared/ui/words/action-words.ts';
import type { TriedStep, TryEnd, TryOffer, TrySetup, TryStart, TryState, Untold } from './try-state.ts';

export const plain = (slug: string): string => slug.replaceAll('-', ' ');

export const UNTOLD_WORDS: Readonly<Record<Untold, string>> = {
  'no-bench': 'This tree names no bench, so say what is found.',
  'no-sign': 'No bench sign is named on this step, so say what is seen.',
  several: 'The bench shows that it is not the first of these. Say which of the others it is.',
  'not-read-here': 'The bench cannot be read at this place. Type what the meter would show.',
  'circuit-live': 'Refused: the circuit is live here, and this reading is for a dead one.',
  'not-solved': 'The circuit does not come to rest as it stands. Say what is found.',
  'no-band': 'No band of this step holds what the meter shows.',
};

/** What is broken on what, in words. */
export const caseWords = ({ bench, fault }: Pick<TrySetup, 'bench' | 'fault'>, offer: TryOffer): string =>
  bench === undefined ? 'no bench' : `${offer.benches[bench]?.title ?? bench}, ${fault ?? 'nothing wrong'}`;

/** How the try came to where it began. */
export function startWords(start: TryStart, title: string, { fault, bench }: TrySetup): string {
  const on = bench === undefined ? 'without a bench' : `with ${fault ?? 'nothing wrong'} on ${bench}`;
  switch (start.how) {
    case 'beginning':
      return 'From the beginning, with the circuit as found.';
    case 'followed':
      return `At “${title}”, by the shortest way the bench leads there: ${start.steps === 1 ? '1 step' : `${start.steps} steps`}. What they changed on the circuit is in place.`;
    case 'set':
      return `No walk ${on} comes to “${title}”. It begins there all the same, with the circuit as you set it here.`;
  }
}

/** A judged value as a meter would show it. */
export const valueWords = ({ si, unit }: Pick<Judged, 'si' | 'unit'>, takes: QuantityKindName): string =>
  si === 'open' ? 'OL' : showQuantity(si, takes, unit, 4);

const WAYS: Readonly<Record<string, string>> = {
  done: 'done',
  known: 'told',
  cannot: 'could not be done',
  found: 'finding accepted',
  'handed off': 'handed over',
};

/** What was found on a step of the trail, and the way it took. */
export function trailWords({ on, typed, judged, takes, unit, kind }: TriedStep): string {
  if (on === undefined) return kind === 'finding' || kind === 'handoff' ? 'the end' : 'here now';
  const band = judged?.bands.find((one) => one.on === on);
  if (judged && takes && on === judged.on) {
    const range = on === 'open' || on === 'otherwise' || !band ? '' : `, ${rangeWords(band.low, band.high, takes, unit)}`;
    return `${typed ?? valueWords(judged, takes)}${on === 'open' && typed?.toLowerCase() === 'ol' ? '' : range}`;
  }
  return `${typed === undefined || typed === on ? '' : `${typed}, `}${WAYS[on] ?? on}`;
}

/** What is still in place. */
export function inPlaceWords(item: PutBackItem): string {
  switch (item.kind) {
    case 'jumper':
      return `Jumper ${item.from} to ${item.to}`;
    case 'lifted':
      return `Lead ${item.lead} lifted`;
    case 'setting':
      return `${plain(item.setting)} ${plain(item.now)}, found ${plain(item.asFound)}`;
  }
}

export function putBackAct(item: PutBackItem): string {
  switch (item.kind) {
    case 'jumper':
      return 'Take it off';
    case 'lifted':
      return 'Land it';
    case 'setting':
      return turnBackWords(plain(item.asFound));
  }
}

/** How the try ended: a word for it, and what that means. */
export function endWords(end: TryEnd, { fault }: TrySetup, title: string): { readonly word: string; readonly told: string } {
  switch (end.how) {
    case 'right':
      return {
        word: 'Right finding',
        told:
          fault === undefined
            ? `“${title}” names no fault, and there is none.`
            : end.names.length === 1
              ? `“${title}” names ${fault}, and nothing else.`
              : `“${title}” names ${fault}, among ${end.names.length} faults.`,
      };
    case 'wrong':
      return {
        word: 'Wrong finding',
        told: `“${title}” names ${end.names.length === 0 ? 'no fault' : end.names.join(', ')}; the circuit has ${fault ?? 'nothing wrong'}.`,
      };
    case 'handed-off':
      return { word: 'Not found', told: `The tree stops here and calls ${end.to}. The circuit has ${fault ?? 'nothing wrong'}.` };
    case 'round':
      return { word: 'Stuck', told: `It has come to “${title}” before, and nothing has changed since: it goes round from here.` };
  }
}

export const OUTCOMES: Readonly<Record<WalkOutcome, string>> = {
  fixed: 'Repaired, put back, and the complaint is gone.',
  'nothing-wrong': 'Nothing wrong was found, and the complaint did not show again.',
  'not-repaired': 'Found, not repaired.',
  'not-fixed': 'The complaint is still there after the repair: what was repaired was not the cause.',
  'handed-off': 'Handed over, with everything put back.',
};

const turnWords = (action: Extract<Action, { do: 'turn' }>): string => `Turn ${plain(action.setting)} ${plain(action.state)}`;

/** What the one button says that does what comes next; undefined where only the author can say. */
export function nextWords({ phase, step, unmet, shows, verdict, putBack }: TryState): string | undefined {
  switch (phase) {
    case 'work':
    case 'recheck': {
      const [hold] = unmet;
      if (hold) return turnWords({ do: 'turn', ...hold });
      if (step.kind === 'act') return 'Done as it says';
      if (shows.kind === 'reading') return `Enter ${shows.shown}`;
      if (shows.kind === 'answer') return step.kind === 'ask' ? `Tell “${shows.on}”` : `Seen: ${shows.on}`;
      return undefined;
    }
    case 'verdict':
      return `Go on to “${verdict?.leadsTo ?? ''}”`;
    case 'finding':
      return 'Accept the finding';
    case 'handoff':
      return 'Stop here, and put everything back';
    case 'repair':
      return 'Repaired';
    case 'put-back':
      return putBack[0] && `${putBackAct(putBack[0])}: ${inPlaceWords(putBack[0])}`;
    case 'closing':
      return 'Close the call';
    default:
      return undefined;
  }
}

export const PHASE_WORDS: Readonly<Partial<Record<TryState['phase'], string>>> = {
  repair: 'Repair',
  'put-back': 'Put everything back',
  recheck: 'Try the complaint again',
  closing: 'All is done',
  closed: 'Closed',
};

export const needsWords = ({ unmet }: TryState): string => `This step needs ${unmet.map(showHold).join(' and ')}.`;
