import { huffmanLength } from './huffman-length.ts';
import { mostOutcomes, type TestProblem, tellableGroups } from './test-problem.ts';

/**
 * What no test can do better on a set, nor on any part of it: the fewest minutes, the most bits a minute, and codes. With the states of `without` left out,
 * no test gives more than `arity` outcomes for as few minutes: a test of more outcomes that also takes longer counts as several one after the other.
 * `splits` are the tests worth taking there.
 */
export type Limits = {
  readonly minutes: number;
  readonly rate: number;
  readonly codes: readonly { readonly arity: number; readonly without: ReadonlySet<number> }[];
  readonly splits: readonly number[];
};

// Above this many groups the length of Huffman's code is bounded by the entropy.
const MOST_CODED = 40;

// Codes of these arities are tried, and of the most outcomes that there are.
const ARITIES = [2, 3];

/**
 * The sets of states that a search meets, each with the set-up it was met in: interned, so that equal sets are one number. Sets are bits in
 * words of an Int32Array; with each its weight, the sum for its entropy, and whether it is done (one group is left, or states that every test shows alike).
 */
export class SuspectSets {
  readonly states: number;
  readonly arity: number;
  private readonly words: number;
  private count = 0;
  private members = new Int32Array(0);
  private setUp = new Int32Array(0);
  private heft = new Float64Array(0);
  private spread = new Float64Array(0);
  private single = new Uint8Array(0);
  private slots = new Int32Array(1024).fill(-1);
  // What the last split gave, by outcome.
  private readonly bits: Int32Array;
  private readonly parts: Float64Array;
  private readonly sums: Float64Array;
  private readonly firstGroup: Int32Array;
  private readonly firstTwin: Int32Array;
  // 1: two groups; 2: two signatures; 3: something to tell apart.
  private readonly mixed: Uint8Array;
  private readonly present: Int32Array;
  private readonly logged: Float64Array;
  private readonly grouped: boolean;
  private readonly tellable: Int32Array;
  private readonly least: Float64Array;
  // The least minutes of a test that tells two states apart, 0 where they need not be told; and whether these differ at all.
  private readonly apart: Float64Array;
  private readonly dear: boolean;
  private readonly coded = new Float64Array(MOST_CODED);
  private readonly codedGroups = new Int32Array(MOST_CODED);
  private readonly twins: Int32Array;

  constructor(readonly problem: TestProblem) {
    const { weights } = problem;
    this.states = weights.length;
    this.words = Math.max(1, Math.ceil(this.states / 32));
    this.arity = mostOutcomes(problem);
    this.bits = new Int32Array(this.words * this.arity);
    this.parts = new Float64Array(this.arity);
    this.sums = new Float64Array(this.arity);
    this.firstGroup = new Int32Array(this.arity);
    this.firstTwin = new Int32Array(this.arity);
    this.mixed = new Uint8Array(this.arity);
    this.present = new Int32Array(this.arity);
    this.logged = weights.map((weight) => (weight > 0 ? weight * Math.log2(weight) : 0));
    const { groups, twins } = tellableGroups(problem);
    this.tellable = groups;
    this.twins = twins;
    const { outcomes, minutes, setUps } = problem;
    this.least = Float64Array.from(outcomes, (_, test) => Math.min(...minutes.subarray(test * setUps, (test + 1) * setUps)));
    this.apart = new Float64Array(this.states ** 2);
    for (let a = 0; a < this.states; a += 1) {
      for (let b = 0; b < this.states; b += 1) {
        if (groups[a] === groups[b]) continue;
        const telling = this.least.filter((_, test) => outcomes[test]?.[a] !== outcomes[test]?.[b]);
        const minutes = telling.length === 0 ? 0 : Math.min(...telling);
        this.apart[a * this.states + b] = Number.isFinite(minutes) ? minutes : 0;
      }
    }
    this.dear = new Set(this.apart.filter((minutes) => minutes > 0)).size > 1;
    this.grouped = new Set(groups).size < groups.length;
    this.grow();
  }

  get size(): number {
    return this.count;
  }

  /** The set of all states, as the circuit is found. */
  whole(setUp = 0): number {
    return this.of(
      Array.from({ length: this.states }, (_, state) => state),
      setUp,
    );
  }

  of(states: Iterable<number>, setUp: number): number {
    this.clear(0);
    for (const state of states) this.add(0, state);
    return this.intern(0, setUp);
  }

  weight(set: number): number {
    return this.heft[set] ?? 0;
  }

  setUpOf(set: number): number {
    return this.setUp[set] ?? 0;
  }

  /** Whether there is nothing more to tell apart. */
  isDone(set: number): boolean {
    return this.single[set] === 1;
  }

  /** Weight times bits of entropy over the groups that can be told apart. */
  entropy(set: number): number {
    return this.spread[set] ?? 0;
  }

  list(set: number): readonly number[] {
    const found: number[] = [];
    for (let word = 0; word < this.words; word += 1) {
      for (let left = this.members[set * this.words + word] ?? 0; left !== 0; left &= left - 1) found.push(word * 32 + 31 - Math.clz32(left & -left));
    }
    return found;
  }

  /**
   * Splits a set by a test. Returns how many outcomes it can have there, 1 or 0 where it tells nothing; the parts are then read by
   * `partDone`, `partBound`, `partEntropy`, `partWeight` and `takePart`, until the next split.
   */
  split(set: number, test: number): number {
    const row = this.problem.outcomes[test];
    if (!row) return 0;
    const { words, members } = this;
    const base = set * words;
    let first = -1;
    let parted = false;
    for (let word = 0; word < words && !parted; word += 1) {
      for (let left = members[base + word] ?? 0; left !== 0; left &= left - 1) {
        const outcome = row[word * 32 + 31 - Math.clz32(left & -left)] ?? 0;
        if (first < 0) first = outcome;
        else if (outcome !== first) {
          parted = true;
          break;
        }
      }
    }
    if (!parted) return first < 0 ? 0 : 1;
    const { arity, present } = this;
    for (let outcome = 0; outcome < arity; outcome += 1) this.clear(outcome);
    for (let word = 0; word < words; word += 1) {
      for (let left = members[base + word] ?? 0; left !== 0; left &= left - 1) {
        const state = word * 32 + 31 - Math.clz32(left & -left);
        this.add(row[state] ?? 0, state);
      }
    }
    let outcomes = 0;
    for (let outcome = 0; outcome < arity; outcome += 1) {
      if ((this.firstGroup[outcome] ?? -1) < 0) continue;
      present[outcomes] = outcome;
      outcomes += 1;
    }
    return outcomes;
  }

  /** The outcome of the i-th part of the last split. */
  partOutcome(i: number): number {
    return this.present[i] ?? 0;
  }

  partWeight(i: number): number {
    return this.parts[this.partOutcome(i)] ?? 0;
  }

  partDone(i: number): boolean {
    return this.mixed[this.partOutcome(i)] !== 3;
  }

  partEntropy(i: number): number {
    return this.entropyOf(this.partOutcome(i));
  }

  /**
   * The tests that are worth taking on a set, where it stands, and what none of them can do better. A test that another tells as well, in no more minutes and
   * leaving the same set-up, is not worth taking: no tree with it is better than one with the other.
   */
  limits(set: number, all = false): Limits {
    const { outcomes, minutes, after, setUps } = this.problem;
    const from = this.setUpOf(set);
    const members = this.list(set);
    const found: Split[] = [];
    let fewest = Number.POSITIVE_INFINITY;
    let rate = 0;
    let arity = 2;
    for (let test = 0; test < outcomes.length; test += 1) {
      const own = minutes[test * setUps + from] ?? Number.POSITIVE_INFINITY;
      if (!Number.isFinite(own)) continue;
      const split = splitOf(outcomes[test], members, test, own, after[test * setUps + from] ?? 0);
      if (split.outcomes < 2) continue;
      found.push(split);
      const least = this.least[test] ?? 0;
      arity = Math.max(arity, split.outcomes);
      fewest = Math.min(fewest, least);
      rate = Math.max(rate, least > 0 ? Math.log2(split.outcomes) / least : Number.POSITIVE_INFINITY);
    }
    const codes = ARITIES.filter((fewer) => fewer < arity).map((fewer) => ({ arity: fewer, without: this.without(found, members, fewer, fewest) }));
    return { minutes: fewest, rate, codes: [...codes, { arity, without: NOBODY }], splits: all ? found.map(({ test }) => test) : worthTaking(found) };
  }

  /** States to leave out so that no test has more outcomes than `arity` for its minutes: the lightest outcomes of each that has. */
  private without(splits: readonly Split[], members: readonly number[], arity: number, fewest: number): ReadonlySet<number> {
    const out = new Set<number>();
    for (const { test, shown, outcomes } of splits) {
      const rounds = Math.ceil(Math.log(outcomes) / Math.log(arity) - 1e-9);
      if (outcomes <= arity || (this.least[test] ?? 0) >= rounds * fewest) continue;
      const weights = new Float64Array(outcomes);
      for (const [i, state] of members.entries()) {
        const outcome = shown[i] ?? 0;
        if (!out.has(state)) weights[outcome] = (weights[outcome] ?? 0) + (this.problem.weights[state] ?? 0);
      }
      const kept = new Set([...weights.keys()].sort((a, b) => (weights[b] ?? 0) - (weights[a] ?? 0)).slice(0, arity));
      for (const [i, state] of members.entries()) if (!kept.has(shown[i] ?? 0)) out.add(state);
    }
    return out;
  }

  /** No tree tells the part's groups apart in fewer weighted minutes than this. `limits` are those of the set that was split. */
  partBound(i: number, { minutes, rate, codes }: Limits): number {
    const outcome = this.partOutcome(i);
    const weight = this.parts[outcome] ?? 0;
    if (this.partDone(i) || weight <= 0) return 0;
    let length = weight;
    for (const { arity, without } of codes) length = Math.max(length, this.codeLength(outcome, weight, arity, without));
    return Math.max(minutes * length, rate > 0 ? this.entropyOf(outcome) / rate : 0, this.apartBound(outcome));
  }

  /** Every state has to be told from the one that is dearest to tell it from. */
  private apartBound(outcome: number): number {
    if (!this.dear) return 0;
    const { words, bits, apart, states } = this;
    let sum = 0;
    for (let word = 0; word < words; word += 1) {
      for (let left = bits[outcome * words + word] ?? 0; left !== 0; left &= left - 1) {
        const state = word * 32 + 31 - Math.clz32(left & -left);
        const weight = this.problem.weights[state] ?? 0;
        let most = 0;
        for (let other = 0; weight > 0 && other < words; other += 1) {
          for (let rest = bits[outcome * words + other] ?? 0; rest !== 0; rest &= rest - 1) {
            const minutes = apart[state * states + other * 32 + 31 - Math.clz32(rest & -rest)] ?? 0;
            if (minutes > most) most = minutes;
          }
        }
        sum += weight * most;
      }
    }
    return sum;
  }

  /** The number of the i-th part of the last split, met in this set-up. Splits after it do not harm it. */
  takePart(i: number, setUp: number): number {
    return this.intern(this.partOutcome(i), setUp);
  }

  /** As `takePart`, of a set that was met before; -1 where it was not. */
  knownPart(i: number, setUp: number): number {
    return this.slots[this.slotOf(this.partOutcome(i) * this.words, setUp)] ?? -1;
  }

  /** Weight times the least mean length of a code over a part's groups, states left out counted with one symbol. */
  private codeLength(outcome: number, weight: number, arity: number, without: ReadonlySet<number>): number {
    const { words, bits, problem, coded, codedGroups } = this;
    let count = 0;
    let out = 0;
    for (let word = 0; word < words; word += 1) {
      for (let left = bits[outcome * words + word] ?? 0; left !== 0; left &= left - 1) {
        const state = word * 32 + 31 - Math.clz32(left & -left);
        const own = problem.weights[state] ?? 0;
        if (without.has(state)) {
          out += own;
          continue;
        }
        const group = this.tellable[state] ?? 0;
        let at = this.grouped ? 0 : count;
        while (at < count && codedGroups[at] !== group) at += 1;
        if (at === count) {
          if (count === MOST_CODED) return Math.max(weight, without.size > 0 ? 0 : this.entropyOf(outcome) / Math.log2(arity));
          codedGroups[at] = group;
          coded[at] = 0;
          count += 1;
        }
        coded[at] = (coded[at] ?? 0) + own;
      }
    }
    return out + Math.max(weight - out, huffmanLength(coded.subarray(0, count), arity));
  }

  private clear(outcome: number): void {
    this.bits.fill(0, outcome * this.words, (outcome + 1) * this.words);
    this.parts[outcome] = 0;
    this.sums[outcome] = 0;
    this.firstGroup[outcome] = -1;
    this.mixed[outcome] = 0;
  }

  private add(outcome: number, state: number): void {
    const { problem, words } = this;
    const at = outcome * words + (state >> 5);
    this.bits[at] = (this.bits[at] ?? 0) | (1 << (state & 31));
    this.parts[outcome] = (this.parts[outcome] ?? 0) + (problem.weights[state] ?? 0);
    this.sums[outcome] = (this.sums[outcome] ?? 0) + (this.logged[state] ?? 0);
    const group = problem.groups[state] ?? 0;
    const twin = this.twins[state] ?? 0;
    if ((this.firstGroup[outcome] ?? -1) < 0) {
      this.firstGroup[outcome] = group;
      this.firstTwin[outcome] = twin;
      return;
    }
    const mixed = (this.firstGroup[outcome] === group ? 0 : 1) + (this.firstTwin[outcome] === twin ? 0 : 2);
    this.mixed[outcome] = (this.mixed[outcome] ?? 0) | mixed;
  }

  private entropyOf(outcome: number): number {
    const weight = this.parts[outcome] ?? 0;
    if (weight <= 0 || this.mixed[outcome] !== 3) return 0;
    const sum = this.grouped ? this.groupSum(outcome) : (this.sums[outcome] ?? 0);
    return Math.max(0, weight * Math.log2(weight) - sum);
  }

  private groupSum(outcome: number): number {
    const { problem, words, bits } = this;
    const byGroup = new Map<number, number>();
    for (let word = 0; word < words; word += 1) {
      for (let left = bits[outcome * words + word] ?? 0; left !== 0; left &= left - 1) {
        const state = word * 32 + 31 - Math.clz32(left & -left);
        const group = this.tellable[state] ?? 0;
        byGroup.set(group, (byGroup.get(group) ?? 0) + (problem.weights[state] ?? 0));
      }
    }
    let sum = 0;
    for (const weight of byGroup.values()) if (weight > 0) sum += weight * Math.log2(weight);
    return sum;
  }

  private intern(outcome: number, setUp: number): number {
    const { words, bits } = this;
    const from = outcome * words;
    const at = this.slotOf(from, setUp);
    const known = this.slots[at] ?? -1;
    if (known >= 0) return known;
    if (this.count === this.setUp.length) this.grow();
    const set = this.count;
    this.count += 1;
    for (let word = 0; word < words; word += 1) this.members[set * words + word] = bits[from + word] ?? 0;
    this.setUp[set] = setUp;
    this.heft[set] = this.parts[outcome] ?? 0;
    this.spread[set] = this.entropyOf(outcome);
    this.single[set] = this.mixed[outcome] === 3 ? 0 : 1;
    this.slots[at] = set;
    if (this.count * 2 > this.slots.length) this.rehash();
    return set;
  }

  /** The slot that has the set, or would. */
  private slotOf(from: number, setUp: number): number {
    const mask = this.slots.length - 1;
    let at = this.hash(this.bits, from, setUp) & mask;
    for (let known = this.slots[at] ?? -1; known >= 0; known = this.slots[at] ?? -1) {
      if (this.setUp[known] === setUp && this.isSame(known, from)) return at;
      at = (at + 1) & mask;
    }
    return at;
  }

  private isSame(set: number, from: number): boolean {
    for (let word = 0; word < this.words; word += 1) if (this.members[set * this.words + word] !== this.bits[from + word]) return false;
    return true;
  }

  private hash(words: Int32Array, from: number, setUp: number): number {
    let hash = Math.imul(setUp + 1, 0x9e3779b1);
    for (let word = 0; word < this.words; word += 1) {
      hash = Math.imul(hash ^ (words[from + word] ?? 0), 0x85ebca6b);
      hash ^= hash >>> 15;
    }
    return hash ^ (hash >>> 13);
  }

  private rehash(): void {
    this.slots = new Int32Array(this.slots.length * 2).fill(-1);
    const mask = this.slots.length - 1;
    for (let set = 0; set < this.count; set += 1) {
      let at = this.hash(this.members, set * this.words, this.setUp[set] ?? 0) & mask;
      while ((this.slots[at] ?? -1) >= 0) at = (at + 1) & mask;
      this.slots[at] = set;
    }
  }

  private grow(): void {
    const size = Math.max(512, this.setUp.length * 2);
    const larger = <T extends Int32Array | Float64Array | Uint8Array>(old: T, fresh: T): T => {
      fresh.set(old);
      return fresh;
    };
    this.members = larger(this.members, new Int32Array(size * this.words));
    this.setUp = larger(this.setUp, new Int32Array(size));
    this.heft = larger(this.heft, new Float64Array(size));
    this.spread = larger(this.spread, new Float64Array(size));
    this.single = larger(this.single, new Uint8Array(size));
  }
}

/** What a test tells of one set: its members' outcomes, numbered in the order that they come. */
type Split = { readonly test: number; readonly minutes: number; readonly after: number; readonly shown: Uint8Array; readonly outcomes: number };

const NUMBERS = new Int16Array(256);

const NOBODY: ReadonlySet<number> = new Set();

function splitOf(row: Uint8Array | undefined, members: readonly number[], test: number, minutes: number, after: number): Split {
  NUMBERS.fill(-1);
  const shown = new Uint8Array(members.length);
  let outcomes = 0;
  for (const [i, state] of members.entries()) {
    const outcome = row?.[state] ?? 0;
    let number = NUMBERS[outcome] ?? -1;
    if (number < 0) {
      number = outcomes;
      NUMBERS[outcome] = number;
      outcomes += 1;
    }
    shown[i] = number;
  }
  return { test, minutes, after, shown, outcomes };
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
