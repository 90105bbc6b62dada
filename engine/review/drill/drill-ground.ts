import type { Bench, PreparedBench } from '../../bench/index.ts';
import { asFound, factBox, namesOf } from '../../bench/index.ts';
import type { FactPoint } from '../../formula/index.ts';
import {
  type MeterAccuracy,
  type QuantityKindName,
  readMeterAccuracy,
  readTypedValue,
  type TypedValueProblem,
  USUAL_METER,
} from '../../quantity/index.ts';
import { failure, type Result, success } from '../../result.ts';
import { BenchShows, type MinutesModel, treeMinutes } from '../../suspects/index.ts';
import { factUnit, isChoice } from '../../tree/index.ts';
import { type CircuitState, SafetyModel, untouched, type WalkableEdition } from '../../walk/index.ts';
import type { DrillTask } from './drill-task.ts';

/** Why a drill cannot be done with what is here. */
export type DrillProblem =
  | { readonly code: 'other-edition'; readonly wants: string; readonly got: string }
  | { readonly code: 'unknown-tree'; readonly tree: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-bench'; readonly bench: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-fault'; readonly fault: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-fact'; readonly fact: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-choice'; readonly fact: string; readonly got: string; readonly known: readonly string[] }
  /** The circuit, and what could be live in it, is made for this range. */
  | { readonly code: 'fact-outside'; readonly fact: string; readonly typed: string; readonly from: string; readonly to: string }
  | { readonly code: 'fact-not-readable'; readonly fact: string; readonly problem: TypedValueProblem };

/** What is read at a place and not between two points. */
export type DrillPlace = { readonly name: string; readonly takes: QuantityKindName };

/** A task with its edition: the circuit that hides the fault, and what judges what is done to it. Worked out once, shared by every move. */
export type DrillGround = {
  readonly edition: WalkableEdition;
  readonly task: DrillTask;
  readonly bench: Bench;
  readonly prepared: PreparedBench;
  readonly shows: BenchShows;
  readonly safety: SafetyModel;
  readonly minutes: MinutesModel;
  readonly meter: MeterAccuracy;
  /** The facts of this house that are not usual, SI. */
  readonly facts: FactPoint;
  readonly found: CircuitState;
  readonly leads: readonly string[];
  readonly places: readonly DrillPlace[];
  readonly hidden: readonly string[];
};

/** The dial of the meter: what is read between two points. */
export const DRILL_DIAL = ['ac-voltage', 'dc-voltage', 'resistance', 'continuity', 'capacitance', 'frequency'] as const satisfies QuantityKindName[];

export function drillGround(edition: WalkableEdition, task: DrillTask): Result<DrillGround, DrillProblem> {
  const { compiled, hash } = edition;
  if (hash !== task.edition) return failure({ code: 'other-edition', wants: task.edition, got: hash });
  const { root } = compiled;
  if (task.tree !== root.name) return failure({ code: 'unknown-tree', tree: task.tree, known: [root.name] });
  const bench = root.benches.includes(task.bench) ? compiled.edition.benches[task.bench] : undefined;
  if (!bench) return failure({ code: 'unknown-bench', bench: task.bench, known: root.benches });
  if (task.fault !== undefined && !Object.hasOwn(bench.faults, task.fault))
    return failure({ code: 'unknown-fault', fault: task.fault, known: Object.keys(bench.faults) });
  const facts = factsOf(edition, bench, task.facts);
  if (!facts.ok) return facts;
  const shows = new BenchShows(bench, {}, [{ facts: facts.value, share: 1 }]);
  const { prepared } = shows;
  const meter = readMeterAccuracy(root.meter);
  return success({
    edition,
    task,
    bench,
    prepared,
    shows,
    safety: compiled.safety(task.bench) ?? new SafetyModel(bench),
    minutes: treeMinutes(compiled, prepared),
    meter: meter.ok ? meter.value : USUAL_METER,
    facts: facts.value,
    found: untouched(asFound(bench).settings),
    leads: namesOf(bench).leads,
    places: placesOf(prepared),
    hidden: task.fault === undefined ? [] : [task.fault],
  });
}

/** The house's facts as typed, in SI; those of the tree alone are checked too. */
function factsOf({ compiled }: WalkableEdition, bench: Bench, typed: DrillTask['facts']): Result<FactPoint, DrillProblem> {
  const facts: Record<string, number> = {};
  const box = factBox(bench);
  for (const [name, text] of Object.entries(typed)) {
    const ofBench = Object.hasOwn(bench.facts, name) ? bench.facts[name] : undefined;
    const spec = ofBench ?? compiled.facts.get(name)?.spec;
    if (!spec) return failure({ code: 'unknown-fact', fact: name, known: [...new Set([...Object.keys(bench.facts), ...compiled.facts.keys()])] });
    if (isChoice(spec)) {
      if (!spec.choices.includes(text)) return failure({ code: 'unknown-choice', fact: name, got: text, known: spec.choices });
      continue;
    }
    const read = readTypedValue(text, spec.quantity, factUnit(spec));
    if (!read.ok) return failure({ code: 'fact-not-readable', fact: name, problem: read.problem });
    const { si } = read.value;
    const range = box[name];
    if (!ofBench || !range || si === 'open') continue;
    // Two ways to the same number may differ in its last digit.
    const slack = 1e-9 * Math.max(1, Math.abs(si));
    if (si < range.from - slack || si > range.to + slack)
      return failure({ code: 'fact-outside', fact: name, typed: text, from: ofBench.from, to: ofBench.to });
    facts[name] = si;
  }
  return success(facts);
}

/** Where a tech can get at more than two points: places, a flame's current, amps of a coil or load whose lead can be lifted. */
function placesOf({ index }: PreparedBench): readonly DrillPlace[] {
  return index.parts.flatMap(({ name, known: { spec }, leads }): readonly DrillPlace[] => {
    if (spec.kind === 'place') return [{ name, takes: spec.reads }];
    if (spec.kind === 'flame') return [{ name, takes: 'dc-current' }];
    return leads.length > 0 && (spec.kind === 'coil' || spec.kind === 'load') ? [{ name, takes: 'ac-current' }] : [];
  });
}

/** The points that a lead or a clip can be put on now: terminals, and the loose ends of lifted leads. */
export const drillPoints = ({ bench }: DrillGround, { lifted }: CircuitState): readonly string[] => [
  ...bench.terminals,
  ...lifted.filter((lead) => !bench.terminals.includes(lead)),
];
