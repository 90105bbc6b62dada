import type { Probe } from '../observe/probe.ts';
import type { Outcomes } from './outcome-bands.ts';
import type { Stance } from './set-up-plan.ts';

/** A probe as a test of faults: how the circuit must stand for it (any way, where absent), what it takes, and what it tells. */
export type IsolationTest = {
  readonly probe: Probe;
  readonly stance: Stance | undefined;
  /** Of the probe alone. */
  readonly minutes: number;
  readonly outcomes: Outcomes;
};

/** A test as a search sees it before it is one: what it shows in each state. */
export type Column = { readonly row: Uint8Array; readonly minutes: number };

/** Whether one column tells apart all that another does. */
function refines(one: Uint8Array, other: Uint8Array): boolean {
  const shown = new Int16Array(256).fill(-1);
  for (const [state, outcome] of one.entries()) {
    const before = shown[outcome] ?? -1;
    const now = other[state] ?? 0;
    if (before >= 0 && before !== now) return false;
    shown[outcome] = now;
  }
  return true;
}

/** Pairs of states, as `a * states + b` with a before b, that a column tells apart and none of these tests does in as few minutes. */
export function newlyTold(tests: readonly Column[], row: Uint8Array, minutes: number): ReadonlySet<number> {
  const cheap = tests.filter((test) => test.minutes <= minutes);
  const told = new Set<number>();
  for (let a = 0; a < row.length; a += 1) {
    for (let b = a + 1; b < row.length; b += 1)
      if (row[a] !== row[b] && !cheap.some((test) => test.row[a] !== test.row[b])) told.add(a * row.length + b);
  }
  return told;
}

/**
 * Leaves out what another of the list tells as well in no more minutes; of equals the first stays. No best tree needs what is left out: the other takes its
 * place. (Only for tests of one stance.)
 */
export function undominated<T extends Column>(columns: readonly T[]): readonly T[] {
  const byCost = [...columns.entries()].sort(([i, a], [j, b]) => a.minutes - b.minutes || outcomesIn(b.row) - outcomesIn(a.row) || i - j);
  const kept: (readonly [number, T])[] = [];
  for (const [i, column] of byCost) {
    if (outcomesIn(column.row) < 2) continue;
    if (!kept.some(([, other]) => refines(other.row, column.row))) kept.push([i, column]);
  }
  return kept.sort(([i], [j]) => i - j).map(([, column]) => column);
}

const outcomesIn = (row: Uint8Array): number => new Set(row).size;
