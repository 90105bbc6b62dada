import { readCondition } from '../formula/index.ts';
import { buildCircuit, type Circuit, pointNumber } from './circuit.ts';
import { callsIn, statesIn } from './condition-names.ts';
import { FieldView } from './field-view.ts';
import { type CanLive, type LiveBy, type LiveClass, LiveGraph, worse } from './live-graph.ts';
import { emptyField } from './network.ts';
import type { PreparedBench } from './prepare.ts';
import { startOf } from './settle.ts';
import { type Situation, withFault } from './situation.ts';
import type { Solved, Unsolved } from './solution.ts';
import { settingNumbers } from './solve.ts';

/** How live something is or could be: the class, the source, and the one fault that it takes, where it takes one. */
export type Liveness = { readonly class: 'dead' } | { readonly class: Exclude<LiveClass, 'dead'>; readonly source: string; readonly fault?: string };

/** What could be live with these settings, jumpers and lifted leads, whatever the contacts do and whichever one fault there is. */
export type WorstCase = {
  readonly ok: true;
  /** A terminal, another node, or a lead (its loose end once lifted). */
  readonly at: (point: string) => Liveness;
  /**
   * What a reading between two points could meet: line voltage at either of them, or a source that can drive a current through the meter. A
   * loop is what counts below 30 V: across a coil with one end lifted nothing can be driven, though its other end is on a live circuit.
   */
  readonly across: (red: string, black: string) => Liveness;
  /** Whether a part with two ends could have current driven through it: a coil that could pull in, a load that could run. */
  readonly part: (name: string) => Liveness;
};

type Scenario = { readonly fault: string | undefined; readonly circuit: Circuit; readonly graph: LiveGraph };

/**
 * The worst case of a situation for safety. Every contact and limit may be closed or open, whatever its condition; a switch and a source are
 * as their settings have them where settings and mechanical states alone decide; every fuse is good; and one fault of the bench, any one that can
 * make something live, may be present: a welded disconnect, a short to a line conductor. Never judged on the healthy circuit alone.
 */
export function worstCase(prepared: PreparedBench, situation: Situation): WorstCase | Unsolved {
  const settings = settingNumbers(prepared, situation.settings);
  if ('ok' in settings) return settings;
  const scenarios: Scenario[] = [];
  for (const fault of [undefined, ...enlivening(prepared)]) {
    if (fault !== undefined && situation.faults.includes(fault)) continue;
    const built = buildCircuit(prepared, fault === undefined ? situation : withFault(situation, fault));
    if (!built.ok) return built;
    scenarios.push({ fault, circuit: built.circuit, graph: worstGraph(built.circuit, settings) });
  }
  const { parts } = prepared.index;
  const judge = (look: (scenario: Scenario) => LiveBy | undefined): Liveness => {
    let found: Liveness = { class: 'dead' };
    for (const scenario of scenarios) {
      const by = look(scenario);
      if (!by || by.class === 'dead' || !worse(by.class, found.class)) continue;
      found = { class: by.class, source: parts[by.source]?.name ?? '', ...(scenario.fault !== undefined && { fault: scenario.fault }) };
    }
    return found;
  };
  const point = ({ circuit }: Scenario, name: string): number => pointNumber(prepared, name, circuit.lifted);
  return {
    ok: true,
    at: (name) => judge((scenario) => scenario.graph.touch(point(scenario, name))),
    across: (red, black) =>
      judge((scenario) => {
        const ends = [point(scenario, red), point(scenario, black)] as const;
        return ends.map((node) => scenario.graph.touch(node)).find((by) => by?.class === 'line') ?? scenario.graph.drive(...ends);
      }),
    part: (name) =>
      judge((scenario) => {
        const number = prepared.index.partNumber.get(name) ?? -1;
        const branch = scenario.circuit.branches[scenario.circuit.main[number] ?? -1];
        return branch && scenario.graph.drive(branch.a, branch.b);
      }),
  };
}

/** What conducts in a solved circuit as it stands. */
export function solvedGraph({ circuit, states }: Solved): LiveGraph {
  return new LiveGraph(
    circuit,
    (i) => {
      const branch = circuit.branches[i];
      if (!branch?.switched || states[branch.part] !== 0) return true;
      return branch.off.re !== 0 || branch.off.im !== 0 || branch.off.dc !== 0;
    },
    (part) => states[part] === 1,
  );
}

/** How live a point of a solved circuit is now: its volts against its source's return (or ground). */
export type Energised = { readonly volts: number; readonly class: LiveClass };

/** Below this a point counts as dead on a drawing; contact and wire drops are of this size. */
const DEAD_VOLTS = 1;

/** Every node's volts against the return of the source in its island, or against ground where the island is bonded to it. */
export function energised({ circuit, states, ac, dc }: Solved): Readonly<Record<string, Energised>> {
  const { nodes } = circuit.prepared.index;
  const ground = circuit.size;
  const isTransformer = (part: number): boolean => circuit.transformers.some((transformer) => transformer.part === part);
  const live = circuit.sources.filter(({ part }) => isTransformer(part) || states[part] === 1);
  const volts = (field: Solved['ac'], i: number): number => {
    const island = field.island[i];
    const back = island === field.island[ground] ? -1 : live.find((source) => field.island[source.hot < 0 ? ground : source.hot] === island)?.back;
    if (back === undefined) return 0;
    const at = (values: Float64Array, node: number): number => (node < 0 ? 0 : (values[node] ?? 0));
    return Math.hypot(at(field.re, i) - at(field.re, back), at(field.im, i) - at(field.im, back));
  };
  return Object.fromEntries(
    nodes.map((name, i) => {
      const against = Math.hypot(volts(ac, i), volts(dc, i));
      return [name, { volts: against, class: against < DEAD_VOLTS ? 'dead' : against > 30 ? 'line' : 'class-2' } as const];
    }),
  );
}

function worstGraph(circuit: Circuit, settings: Int8Array): LiveGraph {
  const { parts } = circuit.prepared.index;
  const empty = emptyField(circuit.size);
  const states = startOf(circuit);
  const view = new FieldView(circuit, settings, states, empty, () => empty);
  /** As settings leave it; undefined where more than settings decide. A part without a rule of its own is where its fault or its file leaves it. */
  const held = (part: number, key: string): boolean | undefined => {
    const state = circuit.states[part];
    if (!state?.next) return state ? state.start === 1 : true;
    return isHeld(circuit.prepared, part, key) ? state.next(view) === 1 : undefined;
  };
  return new LiveGraph(
    circuit,
    (i) => {
      const branch = circuit.branches[i];
      const part = branch?.part ?? -1;
      if (!branch?.switched || part < 0) return true;
      switch (parts[part]?.known.spec.kind) {
        case 'switch':
          return held(part, 'closed-when') ?? true;
        case 'contact':
        case 'limit':
        case 'load':
        case 'flame':
          return circuit.states[part]?.next !== undefined || circuit.states[part]?.start === 1;
        default:
          return true;
      }
    },
    (part) => held(part, 'when') ?? (circuit.states[part]?.next?.(view) === 1 ? true : feedersOf(circuit.prepared, part)),
  );
}

/**
 * A source that is off while everything is dead, as a board's own 5 V is, can be on only where what it goes by is live: the nodes whose volts
 * its condition asks for. One that goes by relays or currents can be on at any time.
 */
function feedersOf({ index }: PreparedBench, part: number): CanLive {
  const text = index.parts[part]?.known.conditions.find(({ key }) => key === 'when')?.text;
  const condition = text === undefined ? undefined : readCondition(text);
  if (!condition?.ok) return true;
  const calls = callsIn(condition.value).filter(({ name }) => name === 'volts' || name === 'dc-volts');
  return calls.length === 0 ? true : calls.flatMap(({ words }) => words.map(({ text: node }) => index.nodeNumber.get(node) ?? -1));
}

/** Whether settings and mechanical states alone decide a part's condition, so that it stays as it is put. */
function isHeld({ bench, index }: PreparedBench, part: number, key: string): boolean {
  const text = index.parts[part]?.known.conditions.find((condition) => condition.key === key)?.text;
  return text !== undefined && isHeldText(bench.signs, index, text, 0);
}

function isHeldText(signs: Readonly<Record<string, string>>, index: PreparedBench['index'], text: string, depth: number): boolean {
  const condition = readCondition(text);
  if (!condition.ok || depth > 20 || callsIn(condition.value).length > 0) return false;
  return statesIn(condition.value).every(({ name }) => {
    if (index.settings.some((setting) => setting.name === name)) return true;
    const part = index.parts[index.partNumber.get(name) ?? -1];
    if (part) return part.known.spec.kind === 'state';
    const sign = signs[name];
    return sign !== undefined && isHeldText(signs, index, sign, depth + 1);
  });
}

/**
 * The faults that could make something live that is not so without: those that close, short, move or swap, that raise a source, and that put
 * a mechanical part in another state where a switch or source goes by it. What only opens can make nothing live.
 */
function enlivening({ faults, index, bench }: PreparedBench): readonly string[] {
  const heldBy = new Set<string>();
  for (const { known } of index.parts) {
    for (const { text } of known.conditions) {
      const condition = readCondition(text);
      if (condition.ok) for (const { name } of statesIn(condition.value)) heldBy.add(name);
    }
  }
  const bySign = Object.keys(bench.signs).some((sign) => heldBy.has(sign));
  return [...faults].flatMap(([name, { part, becoming }]) => {
    const spec = index.parts[part]?.known.spec;
    const kind = spec?.kind;
    switch (becoming.as) {
      case 'mode':
        if (kind === 'state') return bySign || heldBy.has(index.parts[part]?.name ?? '') ? [name] : [];
        return ['shorted', 'stuck-closed', 'grounded', 'swapped'].includes(becoming.mode) ? [name] : [];
      case 'state':
        return bySign || heldBy.has(index.parts[part]?.name ?? '') ? [name] : [];
      case 'value':
        return kind === 'source' || kind === 'dc-source' || kind === 'transformer' ? [name] : [];
      default:
        return [name];
    }
  });
}
