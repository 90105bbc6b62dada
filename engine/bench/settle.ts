import type { Circuit } from './circuit.ts';
import type { CircuitView, SettlingRank } from './circuit-builder.ts';
import { FieldView } from './field-view.ts';
import { emptyField, type Field, imbalance, type Line, type Method, noField, solveField } from './network.ts';
import type { Unsolved } from './solution.ts';

export type Settled = {
  readonly ok: true;
  readonly states: Int8Array;
  readonly ac: Field;
  readonly dc: Field;
  readonly view: CircuitView;
  readonly rounds: number;
  readonly method: Method;
  readonly race: readonly string[];
};

type Change = readonly [part: number, state: number];

const NO_CHANGES: readonly Change[] = [];

// A circuit of relays that takes longer than this to come to rest has no rest that a tech would wait for.
const MOST_ROUNDS = 300;

/**
 * Brings a circuit to rest from the state before power, or from `from`. Contacts, coils and loads switch together on each solution until none
 * would switch; then the most overloaded fuse blows, for good; then a sequence takes one step; and again from the start. A set of states that
 * comes back is chatter. Before that is said, the parts are switched one at a time, in the order of the file, because two relays that
 * race come to rest in life although they do not when they move in the same instant.
 */
export function settle(circuit: Circuit, settings: Int8Array, from?: Int8Array): Settled | Unsolved {
  const sparse = settleBy(circuit, settings, 'sparse', from);
  // The sparse order has no pivoting; where currents do not add up, or a pivot vanished, the dense one is asked.
  return sparse.ok || sparse.reason !== 'no-solution' ? sparse : settleBy(circuit, settings, 'dense', from);
}

function settleBy(circuit: Circuit, settings: Int8Array, method: Method, from: Int8Array | undefined): Settled | Unsolved {
  const { size } = circuit;
  const states = from ? from.slice() : startOf(circuit);
  // Stuck and failed parts are where they are, whatever they were before.
  if (from) for (const [part, state] of circuit.states.entries()) if (state && !state.next) states[part] = state.start;
  const ac = emptyField(size);
  // Without a DC supply the DC volts are zero everywhere and are not solved for.
  const dc = circuit.hasDc ? emptyField(size) : noField(size);
  // DC volts are asked for seldom, so they are solved for when they are.
  let dcIsStale = false;
  let dcFailure: Unsolved | undefined;
  const dcNow = (): Field => {
    if (dcIsStale) {
      dcIsStale = false;
      dcFailure = solveLine('dc', dc);
    }
    return dc;
  };
  const view = new FieldView(circuit, settings, states, ac, dcNow);
  const race = new Set<number>();
  let rounds = 0;

  const names = (parts: Iterable<number>): readonly string[] => [...parts].map((part) => circuit.prepared.index.parts[part]?.name ?? '').sort();
  const wanted = (rank: SettlingRank): readonly Change[] => {
    let changes: Change[] | undefined;
    for (const part of circuit.ranked[rank]) {
      const next = circuit.states[part]?.next?.(view) ?? states[part] ?? 0;
      if (next === states[part]) continue;
      changes ??= [];
      changes.push([part, next]);
    }
    return changes ?? NO_CHANGES;
  };
  const solveLine = (line: Line, field: Field): Unsolved | undefined => {
    const failed = solveField(circuit, states, line, method, field);
    const off = failed >= 0 ? undefined : imbalance(circuit, states, line, field);
    if (failed < 0 && !off) return undefined;
    const node = circuit.prepared.index.nodes[off ? off.node : failed] ?? '';
    const why = off ? `${off.amps.toPrecision(2)} A do not add up there` : 'its volts are decided by nothing';
    return { ok: false, reason: 'no-solution', node, why };
  };
  const solve = (): Unsolved | undefined => {
    rounds += 1;
    dcIsStale = circuit.hasDc;
    return solveLine('ac', ac);
  };
  const blow = (): boolean => {
    const blowing = wanted('fuse');
    const [first] = blowing;
    if (!first) return false;
    const stress = (part: number): number => circuit.states[part]?.stress?.(view) ?? 0;
    const [part, state] = blowing.reduce((worst, other) => (stress(other[0]) > stress(worst[0]) ? other : worst), first);
    states[part] = state;
    return true;
  };
  /**
   * A short that takes down the volts by which its own contact holds opens and closes it, until the fuse has had enough: chatter that
   * overloads a fuse at some moment ends with that fuse blown.
   */
  const fuseBlownIn = (cycle: readonly Int8Array[]): Unsolved | 'blown' | undefined => {
    for (const moment of cycle) {
      states.set(moment);
      const failed = solve();
      if (failed) return failed;
      if (blow()) return 'blown';
    }
    return undefined;
  };

  /** Contacts, coils and loads; undefined once at rest, 'blown' where a fuse ended a chatter. */
  const contactsToRest = (): Unsolved | 'blown' | undefined => {
    if (wanted('now').length === 0) return undefined;
    const begin = states.slice();
    for (const together of [true, false]) {
      if (!together) states.set(begin);
      const seen: Int8Array[] = [begin];
      let stale = !together;
      for (;;) {
        if (stale && rounds > 0) {
          const failed = solve();
          if (failed) return failed;
        }
        const changes = wanted('now');
        const [first] = changes;
        if (dcFailure) return dcFailure;
        if (!first) return undefined;
        // One at a time, a contact before a coil: a relay that has pulled in opens the other's feed before that one has moved.
        const now = together ? changes : [changes.find(([part]) => circuit.electrical[part] === true) ?? first];
        for (const [part, state] of now) states[part] = state;
        stale = now.some(([part]) => circuit.electrical[part] === true);
        const before = seen.findIndex((other) => sameStates(other, states));
        if (before >= 0 || seen.length > MOST_ROUNDS) {
          const cycle = seen.slice(Math.max(0, before));
          const parts = switching(cycle, states);
          if (together) {
            for (const part of parts) race.add(part);
            break;
          }
          return fuseBlownIn(cycle) ?? { ok: false, reason: 'chatter', parts: names(parts) };
        }
        seen.push(states.slice());
      }
    }
    return undefined;
  };

  // Before power: whatever settings alone decide is in place when the circuit is first solved. A circuit that was on is on.
  const early = from ? undefined : contactsToRest();
  if (early && early !== 'blown') return early;
  const stages: Int8Array[] = [];
  for (;;) {
    const failed = solve() ?? contactsToRest();
    if (failed === 'blown') {
      race.clear();
      continue;
    }
    if (failed) return failed;
    if (blow()) continue;
    const step = wanted('sequence')[0];
    dcNow();
    if (dcFailure) return dcFailure;
    if (!step) return { ok: true, states, ac, dc, view, rounds, method, race: names(race) };
    stages.push(states.slice());
    states[step[0]] = step[1];
    const before = stages.findIndex((other) => sameStates(other, states));
    if (before >= 0 || stages.length > MOST_ROUNDS) {
      return { ok: false, reason: 'chatter', parts: names(switching(stages.slice(Math.max(0, before)), states)) };
    }
  }
}

/** Whether a circuit that is seen so would stay as it is. */
export function isAtRest(circuit: Circuit, states: Int8Array, view: CircuitView): boolean {
  return circuit.states.every((state, part) => !state?.next || state.next(view) === states[part]);
}

/** The states before power is applied. */
export function startOf(circuit: Circuit): Int8Array {
  const states = new Int8Array(circuit.states.length);
  for (let part = 0; part < states.length; part += 1) states[part] = circuit.states[part]?.start ?? 0;
  return states;
}

function sameStates(a: Int8Array, b: Int8Array): boolean {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}

/** Parts that are not in one state throughout a cycle. */
function switching(cycle: readonly Int8Array[], last: Int8Array): ReadonlySet<number> {
  const parts = new Set<number>();
  for (const states of cycle) states.forEach((state, part) => void (state !== last[part] && parts.add(part)));
  return parts;
}
