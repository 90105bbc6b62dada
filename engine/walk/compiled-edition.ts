import { bandEdges, type Formula, type FunctionTable, namesIn, readBand, readFormula } from '../formula/index.ts';
import { type QuantityKindName, readMeterAccuracy, USUAL_METER } from '../quantity/index.ts';
import { type FactSpec, factUnit, isChoice, type Step, type Target, type Tree, type Way, waysOf } from '../tree/index.ts';
import type { AsFound } from './circuit-state.ts';
import { type ComputedFormula, computedFormulas } from './computed-numbers.ts';
import type { Edition } from './edition.ts';
import type { Gauge } from './judge.ts';
import { SafetyModel } from './safety-model.ts';
import { type SiteFacts, siteFacts } from './site-facts.ts';

/** One step of an edition, with what the walk needs of it worked out. */
export type CompiledStep = {
  readonly key: string;
  readonly tree: Tree;
  readonly step: Step;
  readonly gauge?: Gauge;
  readonly computed: readonly ComputedFormula[];
  /** The cautions that must be read before the step can be worked: warning and above. */
  readonly mustRead: readonly number[];
  readonly cannot?: string;
  /** Where each way leads, by its `on`. */
  readonly leadsTo: ReadonlyMap<string, string>;
};

/** An edition made ready to walk: every target resolved to a step key `tree/step`. */
export type CompiledEdition = {
  readonly edition: Edition;
  readonly root: Tree;
  readonly start: string;
  readonly steps: ReadonlyMap<string, CompiledStep>;
  readonly facts: SiteFacts;
  readonly asFound: AsFound;
  readonly recheck?: { readonly key: string; readonly passes: string };
  /** The choice fact whose choices are benches: which of them this site is. */
  readonly wiring?: string;
  /** What could be live on each bench; made when first asked for. */
  readonly safety: (bench: string) => SafetyModel | undefined;
};

export const stepKey = (tree: string, step: string): string => `${tree}/${step}`;

/** `warning` and `danger` must be acknowledged; `caution` and `notice` are shown. */
export const mustBeRead = (signal: string): boolean => signal === 'danger' || signal === 'warning';

export function targetKey(edition: Edition, from: Tree, target: Target): string {
  const tree = target.tree ?? from.name;
  const steps = edition.trees[tree]?.steps;
  // A link to another tree without a step is a link to its first.
  return stepKey(tree, steps?.some((s) => s.id === target.step) ? target.step : (steps?.[0]?.id ?? target.step));
}

// A fact is told off a label or a tape, not measured with the meter that the tree's accuracy is about.
const EXACT = { percent: 0, counts: 0, display: USUAL_METER.display };

function gaugeOf(tree: Tree, ways: readonly Way[], takes: QuantityKindName, unit: string | undefined, functions: FunctionTable): Gauge {
  const meter = readMeterAccuracy(tree.meter);
  const bands = ways.flatMap((way) => {
    const band = readBand(way.on);
    return band.ok ? [{ way, band: band.value }] : [];
  });
  return { step: { takes, ...(unit !== undefined && { unit }) }, bands, meter: meter.ok ? meter.value : USUAL_METER, functions };
}

/** Works an edition out once; the result is immutable and can be shared by any number of walks. */
export function compileEdition(edition: Edition, functions: FunctionTable): CompiledEdition {
  const trees = Object.values(edition.trees);
  const root = edition.trees[edition.root];
  if (!root) throw new RangeError(`edition without its root tree ${edition.root}`);
  const benches = Object.values(edition.benches);
  // A bench's own facts are asked of a site only where a tree speaks of them; the rest vary in the proof alone.
  const spoken = factsSpokenOf(trees, functions);
  const ofBenches = benches.map((bench) => Object.fromEntries(Object.entries(bench.facts).filter(([name]) => spoken.has(name))));
  const specs: Readonly<Record<string, FactSpec>>[] = [root.facts, ...trees.map((tree) => tree.facts), ...ofBenches];
  const facts = siteFacts(specs);
  const asFound: Record<string, string> = {};
  for (const settings of [root.settings, ...trees.map((tree) => tree.settings), ...benches.map((bench) => bench.settings)]) {
    for (const [setting, states] of Object.entries(settings)) if (!Object.hasOwn(asFound, setting)) asFound[setting] = states[0] ?? '';
  }
  const steps = new Map<string, CompiledStep>();
  for (const tree of trees) for (const step of tree.steps) steps.set(stepKey(tree.name, step.id), compileStep(edition, tree, step, facts, functions));
  const recheck = root.recheck && { key: stepKey(root.name, root.recheck.step), passes: root.recheck.passes };
  const wiring = [...facts].find(([, { spec }]) => isChoice(spec) && spec.choices.every((choice) => Object.hasOwn(edition.benches, choice)))?.[0];
  return {
    edition,
    root,
    start: stepKey(root.name, root.steps[0]?.id ?? ''),
    steps,
    facts,
    asFound,
    safety: safetyModels(edition),
    ...(recheck && { recheck }),
    ...(wiring !== undefined && { wiring }),
  };
}

/** The facts that trees ask, tell, compute with, or write bands with. */
function factsSpokenOf(trees: readonly Tree[], functions: FunctionTable): ReadonlySet<string> {
  const names = new Set<string>();
  const collect = (formula: Formula | undefined): void => {
    for (const name of formula ? namesIn(formula, functions) : []) names.add(name);
  };
  for (const step of trees.flatMap((tree) => tree.steps)) {
    if (step.kind === 'ask') names.add(step.fact);
    if (step.kind === 'reading' && step.sets !== undefined) names.add(step.sets);
    for (const { by } of step.computed ?? []) {
      const formula = readFormula(by);
      if (formula.ok) collect(formula.value);
    }
    for (const way of waysOf(step)) {
      const band = readBand(way.on);
      if (!band.ok) continue;
      const { low, high } = bandEdges(band.value);
      collect(low);
      collect(high);
    }
  }
  return names;
}

function safetyModels(edition: Edition): CompiledEdition['safety'] {
  const made = new Map<string, SafetyModel>();
  return (name) => {
    const bench = Object.hasOwn(edition.benches, name) ? edition.benches[name] : undefined;
    if (!bench) return undefined;
    const model = made.get(name) ?? new SafetyModel(bench);
    made.set(name, model);
    return model;
  };
}

function compileStep(edition: Edition, tree: Tree, step: Step, facts: SiteFacts, functions: FunctionTable): CompiledStep {
  const handoff = tree.handoff ?? tree.steps.find((s) => s.kind === 'handoff')?.id;
  const ends = step.kind === 'finding' || step.kind === 'handoff';
  const cannot = step.cannot ? targetKey(edition, tree, step.cannot) : handoff && !ends ? stepKey(tree.name, handoff) : undefined;
  const fact = step.kind === 'ask' ? facts.get(step.fact)?.spec : undefined;
  let gauge: Gauge | undefined;
  if (step.kind === 'reading') gauge = gaugeOf(tree, step.ways, step.takes, step.unit, functions);
  else if (step.kind === 'ask' && fact && !isChoice(fact) && !step.ways.some((way) => way.on === 'known'))
    gauge = { ...gaugeOf(tree, step.ways, fact.quantity, factUnit(fact), functions), meter: EXACT };
  return {
    key: stepKey(tree.name, step.id),
    tree,
    step,
    computed: computedFormulas(step, facts, functions),
    mustRead: step.cautions.flatMap((caution, i) => (mustBeRead(caution.signal) ? [i] : [])),
    leadsTo: new Map(waysOf(step).map((way) => [way.on, targetKey(edition, tree, way.to)])),
    ...(gauge && { gauge }),
    ...(cannot !== undefined && { cannot }),
  };
}

/** The way on of a reading that proves its points dead: the lowest band, written `below X`. */
export const isDeadWay = (step: CompiledStep, on: string): boolean =>
  step.gauge?.bands.some(({ way, band }) => way.on === on && band.kind === 'below') ?? false;
