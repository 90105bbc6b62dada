import type { WalkOutcome } from '../../engine/walk/index.ts';
import type { HubWords } from '../../shared/sync/hub-words.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import type { WalkFlag, WalkSummary } from '../../shared/sync/wire/walk-wire.ts';
import type { KeptFiles } from './source/keep-opened.ts';
import type { SourceProblem } from './source/walk-source.ts';

export const OUTCOMES: Readonly<Record<WalkOutcome, string>> = {
  fixed: 'Fixed',
  'nothing-wrong': 'Nothing wrong',
  'not-repaired': 'Not repaired yet',
  'not-fixed': 'Not fixed',
  'handed-off': 'Handed over',
};

export const outcomeWords = (outcome: string): string => (Object.hasOwn(OUTCOMES, outcome) ? OUTCOMES[outcome as WalkOutcome] : outcome);

/** A flag in the few words that a column has room for. */
export const FLAG_WORDS: Readonly<Record<WalkFlag, string>> = {
  'unknown-edition': 'edition missing',
  forked: 'two versions',
  gap: 'lines missing',
  'cut-off': 'end not arrived',
  shrunk: 'phone lost lines',
  'several-hands': 'several hands',
  'does-not-replay': 'does not replay',
};

/** What a list says of a finding afterwards; empty where there is nothing to say yet. */
export function confirmedWords({ confirmation, closed, finding }: WalkSummary): string {
  if (confirmation?.held === true) return 'it held';
  if (confirmation?.held === false) return confirmation.fault === undefined ? 'it came back' : `it was ${plainName(confirmation.fault)}`;
  return closed && finding !== undefined ? 'not yet' : '';
}

export const plainName = (slug: string): string => slug.replaceAll('-', ' ');

const DAY = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit' });
const CLOCK = new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit', second: '2-digit', hourCycle: 'h23' });

export const whenWords = (iso: string): string => DAY.format(new Date(iso));
export const clockWords = (iso: string): string => CLOCK.format(new Date(iso));

/** Minutes as a trainer reads them: seconds below one, no decimals from ten on. */
export function minutesWords(minutes: number): string {
  if (minutes === 0) return '0 min';
  if (Math.abs(minutes) < 1) return `${Math.round(minutes * 60)} s`;
  return `${Math.abs(minutes) < 10 ? minutes.toFixed(1) : Math.round(minutes)} min`;
}

export const percentWords = (share: number): string => {
  const percent = share * 100;
  if (percent > 0 && percent < 1) return 'under 1 %';
  return `${Math.round(percent)} %`;
};

export const countWords = (count: number, one: string, more = `${one}s`): string => `${count} ${count === 1 ? one : more}`;

export function sourceProblemWords(problem: SourceProblem): HubWords {
  if (problem.code === 'browser-storage')
    return {
      happened: `This browser could not read or write its storage (${problem.detail || 'no reason given'}).`,
      safe: 'What it had kept before is as it was, and so are the files that walks were opened from.',
      todo: 'Free some space, close other windows of the desk, and try again. If it stays, load the page again.',
    };
  if (problem.code !== 'not-kept') return hubProblemWords(problem);
  return {
    happened: 'This walk is not kept in this browser.',
    safe: 'Nothing was changed.',
    todo: 'Open its file on the list of walks. If the address came from someone else, ask them for the file.',
  };
}

/** What came of opening files. */
export function keptFilesWords({ walks, editions, neither, unreadable, editionless }: KeptFiles): readonly string[] {
  const taken = [...(walks > 0 ? [countWords(walks, 'walk')] : []), ...(editions > 0 ? [countWords(editions, 'edition')] : [])];
  return [
    ...(taken.length > 0 ? [`Opened ${taken.join(' and ')}. They stay in this browser until you remove them.`] : []),
    ...neither.map(({ file }) => `${file} is neither a log nor an edition, and was left out. Logs end in .jsonl, editions in .edition.json.`),
    ...unreadable.map((file) => `${file} could not be read, and was left out. It may be gone from its place; choose it again.`),
    ...editionless.map((hash) => `Edition ${hash.slice(0, 12)} is not on this desk. Open its .edition.json file too, and its walks can be replayed.`),
  ];
}

/** Giving walks out as files. */
export const exportWords = {
  title: (walks: number): string => (walks === 1 ? 'Give this walk out' : 'Give these walks out'),
  hint: 'Each file holds names, sites and notes as they were typed. Give it only to who may read them.',
  forms: {
    csv: 'Table (CSV)',
    xes: 'Event log (XES)',
    xapi: 'Statements (xAPI)',
    log: 'The log itself',
  },
  saved: (file: string, lost: number): string =>
    lost === 0
      ? `${file} was given to the browser to save.`
      : `${file} was given to the browser to save. ${countWords(lost, 'line')} could not be read; only the log itself holds ${lost === 1 ? 'it' : 'them'}.`,
} as const;
