import { asFound, type Bench, type Situation, withJumper } from '../bench/index.ts';
import type { Walk } from './walk.ts';
import { benchesOf } from './walk-rules.ts';

/** The circuit as the tech has it now, on the bench that the site is (or is usually), with nothing wrong in it. */
export type DrawnCircuit = {
  readonly name: string;
  readonly bench: Bench;
  readonly situation: Situation;
  /** Other wirings that the site may still be; empty once the wiring is told, or where there is one. */
  readonly others: readonly string[];
};

/** What a drawing of the circuit beside a step shows; undefined where the walk's tree has no bench. */
export function drawnCircuit(walk: Walk): DrawnCircuit | undefined {
  const { compiled } = walk.edition;
  const { context } = walk.snapshot;
  const step = context.at === undefined ? undefined : compiled.steps.get(context.at);
  const [name] = benchesOf(compiled, step?.tree ?? compiled.root, context.facts);
  const bench = name === undefined ? undefined : compiled.edition.benches[name];
  if (name === undefined || !bench) return undefined;
  const found = asFound(bench);
  const settings = Object.fromEntries(
    Object.entries(found.settings).map(([setting, state]) => [setting, context.circuit.settings[setting] ?? state]),
  );
  const told = Object.entries(context.facts).flatMap(([fact, { si }]) =>
    si !== undefined && Object.hasOwn(bench.facts, fact) ? [[fact, si] as const] : [],
  );
  const leads = new Set(
    Object.values(bench.parts).flatMap((part) =>
      'lead' in part && part.lead !== undefined ? [part.lead].flat().map((lead) => lead.split(' on ')[0] ?? '') : [],
    ),
  );
  const nodes = new Set([...bench.terminals, ...leads]);
  const start: Situation = {
    ...found,
    settings,
    facts: { ...found.facts, ...Object.fromEntries(told) },
    lifted: context.circuit.lifted.filter((lead) => leads.has(lead)).sort(),
  };
  const jumpers = context.circuit.jumpers.filter((ends) => ends.every((end) => nodes.has(end)));
  const asked = compiled.wiring !== undefined && context.facts[compiled.wiring] === undefined;
  return {
    name,
    bench,
    situation: jumpers.reduce((situation, [a, b]) => withJumper(situation, a, b), start),
    others: asked ? (step?.tree ?? compiled.root).benches.filter((other) => other !== name) : [],
  };
}
