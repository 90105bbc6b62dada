import { huffmanLength } from './huffman-length.ts';
import type { SuspectSets } from './suspect-sets.ts';

/**
 * What no test can do better on a set, nor on any part of it: the fewest minutes, the most bits a minute, and codes. With the states of `without` left out, no
 * test gives more than `arity` outcomes for as few minutes; a test of more outcomes that also takes longer counts as several symbols. `splits` are the tests worth
 * taking there.
 */
export type Limits = {
  readonly minutes: number;
  readonly rate: number;
  readonly codes: readonly { readonly arity: number; readonly without: ReadonlySet<number> }[];
  readonly splits: readonly number[];
};

// Codes of these arities are tried, and of the most outcomes that there are.
const ARITIES = [2, 3];

const NOBODY: ReadonlySet<number> = new Set();

/** How many symbols of a code a test of so many outcomes stands for. */
const symbolsOf = (outcomes: number, arity: number): number => Math.max(1, Math.ceil(Math.log(outcomes) / Math.log(arity) - 1e-9));

/**
 * Lower bounds for sets of states, for searches. They take it that a test which can be taken in one set-up can be taken in all, with what it takes to get there.
 */
export class SetBounds {
  private readonly least: Float64Array;
  private readonly beyondBy = new Map<string, Beyond | undefined>();
  private readonly coded: Float64Array;
  private readonly codedGroups: Int32Array;
  private readonly part: Int32Array;
  private readonly present: Uint8Array;
  // What each test shows on the set that limits are being told for.
  private readonly shown: Uint8Array;

  constructor(private readonly sets: SuspectSets) {
    const { outcomes, minutes, setUps } = sets.problem;
    this.least = Float64Array.from(outcomes, (_, test) => Math.min(...minutes.subarray(test * setUps, (test + 1) * setUps)));
    this.coded = new Float64Array(sets.states);
    this.codedGroups = new Int32Array(sets.states);
    this.part = new Int32Array(sets.states);
    this.present = new Uint8Array(sets.states);
    this.shown = new Uint8Array(outcomes.length * sets.states);
  }

  /**
   * The tests that are worth taking on a set, where it stands, and what none of them can do better. A test that another tells as well, in no more minutes and
   * leaving the same set-up, is not worth taking: no tree with it is better than one with the other. With `all` they are told too.
   */
  limits(set: number, all = false): Limits {
    const { outcomes, minutes, after, setUps } = this.sets.problem;
    const from = this.sets.setUpOf(set);
    const members = this.sets.list(set);
    const found: Split[] = [];
    let fewest = Number.POSITIVE_INFINITY;
    let rate = 0;
    let arity = 2;
    for (let test = 0; test < outcomes.length; test += 1) {
      const least = this.least[test] ?? Number.POSITIVE_INFINITY;
      if (!Number.isFinite(least)) continue;
      const own = minutes[test * setUps + from] ?? Number.POSITIVE_INFINITY;
      const at = test * this.sets.states;
      const shown = this.shown.subarray(at, at + members.length);
      const count = splitInto(shown, outcomes[test], members, this.sets.arity);
      if (count < 2) continue;
      found.push({ test, minutes: own, after: after[test * setUps + from] ?? 0, shown, outcomes: count });
      arity = Math.max(arity, count);
      fewest = Math.min(fewest, least);
      rate = Math.max(rate, least > 0 ? Math.log2(count) / least : Number.POSITIVE_INFINITY);
    }
    const codes = ARITIES.filter((fewer) => fewer < arity).map((fewer) => ({ arity: fewer, without: this.without(found, members, fewer, fewest) }));
    const takeable = found.filter((split) => Number.isFinite(split.minutes));
    const splits = all ? takeable.map(({ test }) => test) : worthTaking(takeable);
    return { minutes: fewest, rate, codes: [...codes, { arity, without: NOBODY }], splits };
  }

  /** States to leave out so that no test has more outcomes than `arity` for its minutes: the lightest outcomes of each that has. */
  private without(splits: readonly Split[], members: readonly number[], arity: number, fewest: number): ReadonlySet<number> {
    const { weights } = this.sets.problem;
    const out = new Set<number>();
    for (const { test, shown, outcomes } of splits) {
      if (outcomes <= arity || (this.least[test] ?? 0) >= symbolsOf(outcomes, arity) * fewest) continue;
      const heft = new Float64Array(outcomes);
      for (const [i, state] of members.entries()) {
        const outcome = shown[i] ?? 0;
        if (!out.has(state)) heft[outcome] = (heft[outcome] ?? 0) + (weights[state] ?? 0);
      }
      const kept = new Set([...heft.keys()].sort((a, b) => (heft[b] ?? 0) - (heft[a] ?? 0)).slice(0, arity));
      for (const [i, state] of members.entries()) if (!kept.has(shown[i] ?? 0)) out.add(state);
    }
    return out;
  }

  /** No tree tells the groups of the i-th part of the last split apart in fewer weighted minutes. `limits` are those of the set that was split. */
  ofPart(i: number, limits: Limits): number {
    const { sets, part } = this;
    const weight = sets.partWeight(i);
    if (sets.partDone(i) || weight <= 0) return 0;
    return this.bound(sets.partStates(i, part), weight, sets.partEntropy(i), limits);
  }

  /** As `ofPart`, of a set with its own limits. */
  ofSet(set: number): number {
    const { sets, part } = this;
    if (sets.isDone(set) || sets.weight(set) <= 0) return 0;
    const limits = this.limits(set);
    const members = sets.list(set);
    part.set(members);
    return limits.splits.length === 0 ? 0 : this.bound(members.length, sets.weight(set), sets.entropy(set), limits);
  }

  private bound(count: number, weight: number, entropy: number, { minutes, rate, codes }: Limits): number {
    let least = rate > 0 ? entropy / rate : 0;
    for (const { arity, without } of codes)
      least = Math.max(least, minutes * this.codeLength(count, weight, arity, without) + this.dearer(count, arity, minutes));
    return least;
  }

  /** Weight times the least mean length of a code over a part's groups, states left out counted with one symbol. */
  private codeLength(count: number, weight: number, arity: number, without: ReadonlySet<number>): number {
    const { sets, coded, codedGroups, part } = this;
    let groups = 0;
    let out = 0;
    for (let i = 0; i < count; i += 1) {
      const state = part[i] ?? 0;
      const own = sets.problem.weights[state] ?? 0;
      if (without.has(state)) {
        out += own;
        continue;
      }
      const group = sets.tellable[state] ?? 0;
      let at = sets.grouped ? 0 : groups;
      while (at < groups && codedGroups[at] !== group) at += 1;
      if (at === groups) {
        codedGroups[at] = group;
        coded[at] = 0;
        groups += 1;
      }
      coded[at] = (coded[at] ?? 0) + own;
    }
    return out + Math.max(weight - out, huffmanLength(coded.subarray(0, groups), arity));
  }

  /**
   * On the way to every state some test tells it from the state that it is dearest to tell from: what that takes beyond the symbols that it counts for, at the
   * fewest minutes each.
   */
  private dearer(count: number, arity: number, fewest: number): number {
    const beyond = this.beyond(arity, fewest);
    if (!beyond) return 0;
    const { sets, part, present } = this;
    const { states } = sets;
    for (let i = 0; i < count; i += 1) present[part[i] ?? 0] = 1;
    let sum = 0;
    for (let i = 0; i < count; i += 1) {
      const weight = sets.problem.weights[part[i] ?? 0] ?? 0;
      if (weight <= 0) continue;
      // The dearest that is in the part, with the dearest of all tried first.
      const row = (part[i] ?? 0) * states;
      for (let j = row; j < row + states; j += 1) {
        if (present[beyond.dearestFirst[j] ?? 0] !== 1) continue;
        sum += weight * (beyond.minutes[j] ?? 0);
        break;
      }
    }
    for (let i = 0; i < count; i += 1) present[part[i] ?? 0] = 0;
    return sum;
  }

  /** For every two states, the least that a test which tells them apart takes beyond its symbols; undefined where that is nothing for all. */
  private beyond(arity: number, fewest: number): Beyond | undefined {
    if (!(fewest > 0)) return undefined;
    const key = `${arity} ${fewest}`;
    if (this.beyondBy.has(key)) return this.beyondBy.get(key);
    const { problem, states } = this.sets;
    const own = this.least.map((minutes, test) => {
      const outcomes = (problem.outcomes[test] ?? new Uint8Array(0)).reduce((most, outcome) => Math.max(most, outcome + 1), 2);
      return Math.max(0, minutes - fewest * Math.max(1, Math.min(symbolsOf(outcomes, arity), Math.floor(minutes / fewest))));
    });
    const table = new Float64Array(states ** 2);
    for (let a = 0; a < states; a += 1) {
      for (let b = 0; b < a; b += 1) {
        if (problem.groups[a] === problem.groups[b]) continue;
        let least = Number.POSITIVE_INFINITY;
        for (const [test, row] of problem.outcomes.entries()) if (row[a] !== row[b]) least = Math.min(least, own[test] ?? Number.POSITIVE_INFINITY);
        const known = Number.isFinite(least) ? least : 0;
        table[a * states + b] = known;
        table[b * states + a] = known;
      }
    }
    const kept = table.some((minutes) => minutes > 0) ? dearestFirst(table, states) : undefined;
    this.beyondBy.set(key, kept);
    return kept;
  }
}

/** For every state, row by row: the others with what telling it from them takes beyond its symbols, the most first. */
type Beyond = { readonly dearestFirst: Int16Array; readonly minutes: Float64Array };

function dearestFirst(table: Float64Array, states: number): Beyond {
  const order = new Int16Array(table.length);
  const minutes = new Float64Array(table.length);
  for (let row = 0; row < table.length; row += states) {
    const own = table.subarray(row, row + states);
    const sorted = Int16Array.from(own, (_, other) => other).sort((a, b) => (own[b] ?? 0) - (own[a] ?? 0));
    order.set(sorted, row);
    minutes.set(
      Float64Array.from(sorted, (other) => own[other] ?? 0),
      row,
    );
  }
  return { dearestFirst: order, minutes };
}

/** What a test tells of one set: its members' outcomes, numbered in the order that they come. */
type Split = { readonly test: number; readonly minutes: number; readonly after: number; readonly shown: Uint8Array; readonly outcomes: number };

const NUMBERS = new Int16Array(256);

/** Writes what a test shows on each member, numbered in the order met, into `shown`; how many outcomes that are. */
function splitInto(shown: Uint8Array, row: Uint8Array | undefined, members: readonly number[], arity: number): number {
  NUMBERS.fill(-1, 0, arity);
  let outcomes = 0;
  for (let i = 0; i < members.length; i += 1) {
    const outcome = row?.[members[i] ?? 0] ?? 0;
    let number = NUMBERS[outcome] ?? -1;
    if (number < 0) {
      number = outcomes;
      NUMBERS[outcome] = number;
      outcomes += 1;
    }
    shown[i] = number;
  }
  return outcomes;
}

/** Leaves out what another split tells as well; in the order of the tests. */
function worthTaking(splits: readonly Split[]): number[] {
  const byCost = [...splits].sort((a, b) => a.minutes - b.minutes || b.outcomes - a.outcomes || a.test - b.test);
  const kept: Split[] = [];
  for (const split of byCost) if (!kept.some((other) => other.after === split.after && isFiner(other, split))) kept.push(split);
  return kept.map(({ test }) => test).sort((a, b) => a - b);
}

function isFiner(one: Split, other: Split): boolean {
  if (one.outcomes < other.outcomes) return false;
  NUMBERS.fill(-1, 0, one.outcomes);
  for (let i = 0; i < one.shown.length; i += 1) {
    const outcome = one.shown[i] ?? 0;
    const now = other.shown[i] ?? 0;
    const before = NUMBERS[outcome] ?? -1;
    if (before < 0) NUMBERS[outcome] = now;
    else if (before !== now) return false;
  }
  return true;
}
