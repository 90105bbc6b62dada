import { type Bench, factCorners } from '../../bench/index.ts';
import { threeHouses } from '../isolate/isolation-problem.ts';
import { asFoundCircuit } from '../isolate/stances.ts';
import { BenchShows } from '../observe/bench-shows.ts';
import type { House } from '../observe/fact-spread.ts';

// Past so many corners a place that hangs on that many facts is not worth the wait.
const MOST_CORNERS = 256;

/**
 * The houses that a draft must hold in. A draft's bands are plain numbers, so that a place that is read off (a plate, a dial) and hangs on several facts together
 * also has to be right where these pull it furthest apart, which is in none of the usual three.
 */
export function draftHouses(bench: Bench): readonly House[] {
  const three = threeHouses(bench);
  const places = Object.entries(bench.parts).flatMap(([name, part]) => (part.kind === 'place' ? [{ at: name, takes: part.reads }] : []));
  const corners = factCorners(bench);
  if (places.length === 0 || corners.length <= 2 || corners.length > MOST_CORNERS) return three;
  const all = new BenchShows(
    bench,
    {},
    corners.map((facts) => ({ facts, share: 1 / corners.length })),
  );
  const circuit = asFoundCircuit(all.prepared);
  const ends: readonly number[] = places.flatMap(({ at, takes }) => {
    const row = [...all.shows({ kind: 'reading', takes, at }, circuit, [])];
    const told = row.filter((value) => !Number.isNaN(value));
    const [low, high] = [Math.min(...told), Math.max(...told)];
    return low < high ? [row.indexOf(low), row.indexOf(high)] : [];
  });
  const facts: readonly House['facts'][] = [...three.map((house) => house.facts), ...ends.map((corner) => corners[corner] ?? {})];
  const apart = [...new Map(facts.map((point) => [JSON.stringify(Object.entries(point).sort()), point])).values()];
  return apart.map((point) => ({ facts: point, share: 1 / apart.length }));
}
