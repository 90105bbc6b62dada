import { type Bench, factBox } from '../../bench/index.ts';
import type { FactPoint } from '../../formula/index.ts';

/** One house that the site could be, and its share of them. */
export type House = { readonly facts: FactPoint; readonly share: number };

// The usual values are met as often as both ends of a fact together.
const USUAL = 2;

/**
 * The houses that a bench is tried in where a site's facts are not known: the usual one, each fact at each end of its range, and all
 * facts at their low and at their high ends. What is known of the site holds in all of them. Between them a reading is taken to
 * change steadily.
 */
export function factSpread(bench: Bench, known: FactPoint = {}): readonly House[] {
  const box = Object.entries(factBox(bench));
  const usual: Record<string, number> = Object.fromEntries(box.map(([name, { usual: value }]) => [name, known[name] ?? value]));
  const ranges = box.filter(([name, { from, to }]) => known[name] === undefined && from < to);
  const alone = ranges.flatMap(([name, { from, to, usual: middle }]) =>
    [from, to].filter((end) => end !== middle).map((end) => ({ ...usual, [name]: end })),
  );
  const together =
    ranges.length < 2
      ? []
      : (['from', 'to'] as const).map((end) => ({ ...usual, ...Object.fromEntries(ranges.map(([name, range]) => [name, range[end]])) }));
  const houses = [...alone, ...together];
  const whole = USUAL + houses.length;
  return [{ facts: usual, share: USUAL / whole }, ...houses.map((facts) => ({ facts, share: 1 / whole }))];
}
