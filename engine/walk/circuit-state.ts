import { type Action, jumperKey, showAction } from '../tree/index.ts';
import type { PutBackItem } from './walk-view.ts';

/** How far two points have been proved dead: read as dead, with the meter proved before it and (then) after it. */
export type DeadProof = { readonly points: readonly [string, string]; readonly meterBefore: boolean; readonly meterAfter: boolean };

/** What the tech has done to the circuit so far, as far as the tree knows. */
export type CircuitState = {
  readonly settings: Readonly<Record<string, string>>;
  readonly jumpers: readonly (readonly [string, string])[];
  readonly lifted: readonly string[];
  /** The meter was tried on a known source since the last change of the circuit. */
  readonly meterProved: boolean;
  readonly dead: readonly DeadProof[];
};

/** How settings stand before anybody touches them; the first of their states. */
export type AsFound = Readonly<Record<string, string>>;

export const untouched = (asFound: AsFound): CircuitState => ({ settings: asFound, jumpers: [], lifted: [], meterProved: false, dead: [] });

// What was proved dead holds only until something changes that could make it live; then live-dead-live begins anew. A meter tried on a
// live circuit just before it is turned off is a meter tried before the reading.
const unproved = ({ dead, meterProved }: CircuitState): Pick<CircuitState, 'dead' | 'meterProved'> => ({
  dead: [],
  meterProved: dead.length === 0 && meterProved,
});

/** The circuit after one action. Doing what is already so changes nothing. */
export function afterAction(circuit: CircuitState, action: Action): CircuitState {
  switch (action.do) {
    case 'turn':
      if (circuit.settings[action.setting] === action.state) return circuit;
      return { ...circuit, ...unproved(circuit), settings: { ...circuit.settings, [action.setting]: action.state } };
    case 'jumper':
      if (hasJumper(circuit, action.from, action.to)) return circuit;
      return { ...circuit, ...unproved(circuit), jumpers: [...circuit.jumpers, [action.from, action.to]] };
    case 'remove-jumper': {
      const key = jumperKey(action.from, action.to);
      return { ...circuit, jumpers: circuit.jumpers.filter(([a, b]) => jumperKey(a, b) !== key) };
    }
    case 'lift':
      return circuit.lifted.includes(action.lead) ? circuit : { ...circuit, lifted: [...circuit.lifted, action.lead] };
    case 'land':
      return circuit.lifted.includes(action.lead)
        ? { ...circuit, ...unproved(circuit), lifted: circuit.lifted.filter((lead) => lead !== action.lead) }
        : circuit;
    case 'prove-meter':
      return { ...circuit, meterProved: true, dead: circuit.dead.map((proof) => ({ ...proof, meterAfter: true })) };
  }
}

export const hasJumper = (circuit: CircuitState, a: string, b: string): boolean =>
  circuit.jumpers.some(([x, y]) => jumperKey(x, y) === jumperKey(a, b));

/** The circuit after a reading that showed two points dead. */
export function afterDeadReading(circuit: CircuitState, points: readonly [string, string]): CircuitState {
  const key = jumperKey(...points);
  const others = circuit.dead.filter((proof) => jumperKey(...proof.points) !== key);
  return { ...circuit, dead: [...others, { points, meterBefore: circuit.meterProved, meterAfter: false }] };
}

/** What is still to be put back, in the order to do it: jumpers off, leads landed, then settings in the order in which the tree and its benches list them. */
export function putBackItems(circuit: CircuitState, asFound: AsFound): readonly PutBackItem[] {
  const jumpers = circuit.jumpers.map(([from, to]): PutBackItem => ({ key: `jumper ${jumperKey(from, to)}`, kind: 'jumper', from, to }));
  const lifted = circuit.lifted.map((lead): PutBackItem => ({ key: `lead ${lead}`, kind: 'lifted', lead }));
  const settings = Object.entries(circuit.settings)
    .filter(([setting, now]) => now !== (asFound[setting] ?? ''))
    .map(([setting, now]): PutBackItem => ({ key: `setting ${setting}`, kind: 'setting', setting, now, asFound: asFound[setting] ?? '' }));
  return [...jumpers, ...lifted, ...settings];
}

/** The action that puts one item back. */
export function puttingBack(item: PutBackItem): Action {
  switch (item.kind) {
    case 'jumper':
      return { do: 'remove-jumper', from: item.from, to: item.to };
    case 'lifted':
      return { do: 'land', lead: item.lead };
    case 'setting':
      return { do: 'turn', setting: item.setting, state: item.asFound };
  }
}

/** The circuit after one item is put back. */
export const afterPuttingBack = (circuit: CircuitState, item: PutBackItem): CircuitState => afterAction(circuit, puttingBack(item));

/** A short text of the circuit, equal for equal circuits: what a search over circuits compares by. */
export function circuitKey(circuit: CircuitState): string {
  const settings = Object.entries(circuit.settings).map(([setting, state]) => `${setting}=${state}`);
  const jumpers = circuit.jumpers.map(([a, b]) => jumperKey(a, b));
  const dead = circuit.dead.map((proof) => `${jumperKey(...proof.points)}${proof.meterBefore ? '<' : ''}${proof.meterAfter ? '>' : ''}`);
  return [settings, jumpers, circuit.lifted, dead].map((list) => [...list].sort().join(',')).join(';') + (circuit.meterProved ? '!' : '');
}

/** What an item is in words, for logs and terminals: the action that would put it back. */
export const putBackText = (item: PutBackItem): string => showAction(puttingBack(item));
