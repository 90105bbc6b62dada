import { actionWords } from '../../shared/ui/words/action-words.ts';
import { capital, plainWords } from '../../shared/ui/words/plain-words.ts';
import type { SetUpMove, ShownSuspect } from './suspects-report.ts';

// Below it, a number says no more than that it is small.
const LEAST = 0.0075;

/** A probability as people say it: `3 in 10`, `1 in 20`, `almost certain`. */
export function chanceWords(probability: number): string {
  if (probability >= 0.945) return 'almost certain';
  if (probability >= 0.145) return `${Math.min(9, Math.max(2, Math.round(probability * 10)))} in 10`;
  if (probability >= LEAST)
    return `1 in ${[7, 8, 10, 15, 20, 30, 50, 100].reduce((a, b) => (ratio(b, probability) < ratio(a, probability) ? b : a))}`;
  return 'less than 1 in 100';
}

const ratio = (one: number, probability: number): number => Math.abs(Math.log(one * probability));

/** `31 %`. Never 100 %: readings make likely, a repair makes sure. Empty where the words say it all. */
export function percentWords(probability: number): string {
  const whole = Math.min(99, Math.round(probability * 100));
  return probability < LEAST ? '' : `${Math.max(1, whole)}\u00a0%`;
}

export const faultName = (fault: string): string => capital(plainWords(fault)) || 'Nothing wrong';

/** Names of faults in one line; what goes past `most` is counted. */
export function faultNames(faults: readonly string[], most = 3): string {
  const named = faults.slice(0, faults.length > most + 1 ? most : undefined).map((fault) => plainWords(fault) || 'nothing wrong');
  const more = faults.length - named.length;
  if (more > 0) return `${named.join(', ')} and ${more} more`;
  return named.length < 2 ? named.join('') : `${named.slice(0, -1).join(', ')} and ${named.at(-1)}`;
}

export const NOTHING_WRONG = { name: 'Nothing wrong', says: 'It comes and goes, and is not there now.' } as const;
export const UNKNOWN = { name: 'Something else', says: 'Something that this bench does not know.' } as const;

export const wiringWords = ({ wirings }: ShownSuspect): string => `Only if wired: ${wirings.map(plainWords).join(', or ')}.`;

export const setUpWords = (move: SetUpMove): string =>
  move.do === 'prove-dead' ? `Prove ${move.across[0]} to ${move.across[1]} dead` : actionWords(move);

/** `1 min`, `4 min`; what takes seconds is said so. */
export const minutesWords = (minutes: number): string => (minutes < 0.75 ? 'under a minute' : `${Math.round(minutes)} min`);

export const FAILED = {
  happened: 'What is still possible could not be worked out.',
  safe: 'The call and its log are not touched by this.',
  todo: 'Go on in the tree’s order, or try again.',
} as const;
