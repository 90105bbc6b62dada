const FIRST = 2_000;
const LONGEST = 5 * 60_000;

/**
 * Milliseconds to wait before the next try: a chance part of a span that doubles with each try in vain, so that phones that lost the hub
 * together do not all come back at once. `asked`, what the hub asked for, is the least. `tries` from 1; `random` in [0, 1).
 */
export function retryDelay(tries: number, random: number, asked = 0): number {
  const span = Math.min(LONGEST, FIRST * 2 ** Math.min(Math.max(tries, 1) - 1, 20));
  return asked + Math.round(span / 4 + random * span * 0.75);
}
