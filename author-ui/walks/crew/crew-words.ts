import { type Habit, type Interval, type MeasureCode, measureWords } from '../../../engine/review/index.ts';
import { countWords, minutesWords, percentWords, plainName } from '../walk-words.ts';
import type { Gathered } from './gather-walks.ts';

const isMinutes = (code: MeasureCode | 'step-minutes'): boolean => code === 'step-minutes' || measureWords(code).unit === 'min';

const number = (value: number): string => (Math.abs(value) < 10 ? value.toFixed(1) : String(Math.round(value)));

/** A value and the ends that it can be trusted to; one that could be anything says so. */
export function intervalWords({ value, low, high }: Interval, show: (value: number) => string): string {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return `${show(value)} (one call: could be anything)`;
  return `${show(value)} (${show(low)} to ${show(high)})`;
}

export const shareWords = (interval: Interval): string => intervalWords(interval, percentWords);

export const meanWords = (code: MeasureCode, interval: Interval): string => intervalWords(interval, isMinutes(code) ? minutesWords : number);

/** What stands out of one person's calls against the others'. */
export function habitWords({ by, of, step, direction, own, others }: Habit): string {
  const minutes = isMinutes(of);
  const show = minutes ? minutesWords : percentWords;
  const what = of === 'step-minutes' ? `time at “${plainName(step?.step ?? '')}”` : measureWords(of).name.toLowerCase();
  const amounts = `${show(own.value)} over ${countWords(own.n, 'call')}; the others ${show(others.value)} over ${others.n}`;
  return `${by}: ${direction} ${minutes ? what : `calls with “${what}”`} — ${amounts}.`;
}

export function leftWords({ away, unread, editionless, failed }: Gathered['left']): readonly string[] {
  return [
    ...(editionless > 0 ? [`${countWords(editionless, 'walk')} left out: the edition is not here. Open its .edition.json file.`] : []),
    ...(away > 0 ? [`${countWords(away, 'answer')} of the hub did not come. Count again when it answers.`] : []),
    ...(unread > 0 ? [`${countWords(unread, 'answer')} of this browser’s storage did not come. Load the page again, and count again.`] : []),
    ...(failed > 0 ? [`${countWords(failed, 'walk')} left out: the log could not be reviewed.`] : []),
  ];
}
