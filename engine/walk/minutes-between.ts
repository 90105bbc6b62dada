import type { WalkLine } from './walk-line.ts';

/**
 * Minutes between two lines of a log. The clock on the wall can be set back, and the one that never runs back begins anew with every start of the app and may
 * stand while a phone sleeps: the longer of the two is what went by.
 */
export function minutesBetween(before: Pick<WalkLine, 'time' | 'mono'>, after: Pick<WalkLine, 'time' | 'mono'>): number {
  const wall = Date.parse(after.time) - Date.parse(before.time);
  return Math.max(0, Number.isFinite(wall) ? wall : 0, after.mono - before.mono) / 60_000;
}
