import { mostOutcomes, type TestProblem, tellableGroups } from './test-problem.ts';

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
  /** Each state's group among those that can be told apart; and whether some group has several states. */
  readonly tellable: Int32Array;
  readonly grouped: boolean;
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
   * `partDone`, `partEntropy`, `partWeight`, `partStates` and `takePart`, until the next split.
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

  /** Writes the states of the i-th part of the last split into `into`; how many there are. */
  partStates(i: number, into: Int32Array): number {
    const { words, bits } = this;
    const from = this.partOutcome(i) * words;
    let count = 0;
    for (let word = 0; word < words; word += 1) {
      for (let left = bits[from + word] ?? 0; left !== 0; left &= left - 1) {
        into[count] = word * 32 + 31 - Math.clz32(left & -left);
        count += 1;
      }
    }
    return count;
  }

  /** The number of the i-th part of the last split, met in this set-up. Splits after it do not harm it. */
  takePart(i: number, setUp: number): number {
    return this.intern(this.partOutcome(i), setUp);
  }

  /** As `takePart`, of a set that was met before; -1 where it was not. */
  knownPart(i: number, setUp: number): number {
    return this.slots[this.slotOf(this.partOutcome(i) * this.words, setUp)] ?? -1;
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
