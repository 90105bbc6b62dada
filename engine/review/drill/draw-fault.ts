import type { Bench } from '../../bench/index.ts';

/** A fault drawn by how often it is met; `chance` is from 0 up to 1. Undefined where the bench has none. */
export function drawFault({ faults }: Bench, chance: number): string | undefined {
  const all = Object.entries(faults);
  const whole = all.reduce((sum, [, { weight }]) => sum + weight, 0);
  let left = Math.min(Math.max(chance, 0), 1) * whole;
  for (const [name, { weight }] of all) {
    left -= weight;
    if (left < 0) return name;
  }
  return all.at(-1)?.[0];
}
