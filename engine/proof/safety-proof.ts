import { quantityKind } from '../quantity/index.ts';
import type { Caution, CautionSubject, Signal } from '../tree/index.ts';
import { SIGNALS } from '../tree/index.ts';
import {
  type CircuitState,
  type CompiledEdition,
  type CompiledStep,
  putBackItems,
  putBackText,
  puttingBack,
  type SafetyConcern,
  type SafetyModel,
  stepKey,
} from '../walk/index.ts';
import { type PathNode, pathTold, searchPaths } from './path-search.ts';

/** Something that can hurt someone, with the shortest path that shows it. */
export type SafetyFinding = {
  readonly step: CompiledStep;
  readonly bench: string | undefined;
  readonly path: readonly string[];
  readonly found:
    | SafetyConcern
    | { readonly code: 'caution-too-mild'; readonly about: CautionSubject; readonly needs: Signal; readonly has: Signal | undefined }
    | { readonly code: 'left-in-place'; readonly left: string; readonly why: 'some-paths' | 'unsafe-to-put-back' };
};

export type SafetyProof = { readonly findings: readonly SafetyFinding[]; readonly states: number; readonly cut: boolean };

/** Searches every path on every bench (or once without one) for what the safety rules forbid. */
export function proveSafety(edition: CompiledEdition): SafetyProof {
  const kept = new Map<string, SafetyFinding>();
  let states = 0;
  let cut = false;
  const names = edition.root.benches.filter((name) => edition.safety(name) !== undefined);
  for (const bench of names.length === 0 ? [undefined] : names) {
    const search = searchPaths(edition, edition.asFound, (step, on) => followsWiring(edition, step, on, bench));
    states += search.nodes.length;
    cut ||= search.cut;
    const model = bench === undefined ? undefined : edition.safety(bench);
    const add = (node: PathNode, found: SafetyFinding['found']): void => {
      const key = `${node.step.key} ${found.code} ${'about' in found ? found.about : ''}`;
      // Nodes come nearest first, so the first is a shortest path.
      if (!kept.has(key)) kept.set(key, { step: node.step, bench, path: pathTold(node), found });
    };
    for (const node of search.nodes) {
      if (model) for (const concern of model.concerns(node.step, node.circuit)) add(node, concern);
      for (const mild of tooMild(edition, model, node.step, node.circuit)) add(node, mild);
      const left = model && unsafeToPutBack(edition, model, node);
      if (left !== undefined) add(node, { code: 'left-in-place', left, why: 'unsafe-to-put-back' });
    }
    for (const { node, left } of leftOnSomePaths(search.nodes)) add(node, { code: 'left-in-place', left, why: 'some-paths' });
  }
  return { findings: [...kept.values()], states, cut };
}

/** On one bench, an Ask of the wiring takes that bench's own way only. */
export function followsWiring(edition: CompiledEdition, step: CompiledStep, on: string, bench: string | undefined): boolean {
  if (bench === undefined || step.step.kind !== 'ask' || step.step.fact !== edition.wiring) return true;
  return on === bench || on === 'cannot';
}

// What each kind of work calls for at the least, by ANSI Z535.6: line voltage and gas can kill; Class 2 cannot hurt, but burns fuses.
const LEAST: Readonly<Partial<Record<CautionSubject, Signal>>> = { 'line-voltage': 'warning', gas: 'warning', 'control-circuit': 'notice' };

const severity = (signal: Signal): number => SIGNALS.length - SIGNALS.indexOf(signal);

function strongest(cautions: readonly Caution[], about: CautionSubject): Signal | undefined {
  return cautions
    .filter((caution) => caution.about === about)
    .map((caution) => caution.signal)
    .sort((a, b) => severity(b) - severity(a))[0];
}

/** The subjects of caution that a step's work calls for while the circuit stands so. */
function callsFor(model: SafetyModel | undefined, step: CompiledStep, circuit: CircuitState): readonly CautionSubject[] {
  const { step: at } = step;
  if (!model) return [];
  if (at.kind === 'reading' && at.across && quantityKind(at.takes).dimension === quantityKind('ac-voltage').dimension) {
    return model.couldBeLine(at.across, circuit) ? ['line-voltage'] : model.couldBeLive(at.across, circuit) ? ['control-circuit'] : [];
  }
  if (at.kind !== 'act') return [];
  const points = at.does.flatMap((action) => model.touched(action));
  if (points.length === 0) return [];
  return model.couldBeLine(points, circuit) ? ['line-voltage'] : model.couldBeLive(points, circuit) ? ['control-circuit'] : [];
}

function tooMild(
  edition: CompiledEdition,
  model: SafetyModel | undefined,
  step: CompiledStep,
  circuit: CircuitState,
): readonly SafetyFinding['found'][] {
  const cautions = [...step.step.cautions, ...step.tree.opening.cautions, ...(step.tree === edition.root ? [] : edition.root.opening.cautions)];
  // Gas named as less than a warning is too mild wherever it stands; the circuit need not be asked. The opening's is told once, at the start.
  const named = step.key === edition.start ? cautions : step.step.cautions;
  const gas: readonly CautionSubject[] = named.some((caution) => caution.about === 'gas') ? ['gas'] : [];
  return [...callsFor(model, step, circuit), ...gas].flatMap((about) => {
    const needs = LEAST[about];
    const has = strongest(cautions, about);
    // A warning of line voltage covers the control circuit beside it.
    const covered = about === 'control-circuit' && strongest(cautions, 'line-voltage') !== undefined;
    if (needs === undefined || covered || (has !== undefined && severity(has) >= severity(needs))) return [];
    return [{ code: 'caution-too-mild' as const, about, needs, has }];
  });
}

/** What the closing ritual could not put back safely from a finding or handoff, in the order it would. */
function unsafeToPutBack(edition: CompiledEdition, model: SafetyModel, { step, circuit }: PathNode): string | undefined {
  if (step.step.kind !== 'finding' && step.step.kind !== 'handoff') return undefined;
  for (const item of putBackItems(circuit, edition.asFound)) {
    if (item.kind === 'setting') continue;
    if (model.actConcerns([puttingBack(item)], circuit).some((concern) => concern.code === 'touched-while-live')) return putBackText(item);
  }
  return undefined;
}

/**
 * A reading or look that one path reaches with a jumper or lifted lead in place and another without: it cannot mean the same
 * on both. Findings and handoffs are not asked: the ritual empties the list there.
 */
function leftOnSomePaths(nodes: readonly PathNode[]): readonly { readonly node: PathNode; readonly left: string }[] {
  const bySteps = new Map<string, PathNode[]>();
  for (const node of nodes) {
    if (node.step.step.kind !== 'reading' && node.step.step.kind !== 'look') continue;
    const key = stepKey(node.step.tree.name, node.step.step.id);
    bySteps.set(key, [...(bySteps.get(key) ?? []), node]);
  }
  return [...bySteps.values()].flatMap((reached) => {
    const clean = reached.some(({ circuit }) => circuit.jumpers.length === 0 && circuit.lifted.length === 0);
    const left = reached.find(({ circuit }) => circuit.jumpers.length > 0 || circuit.lifted.length > 0);
    if (!clean || !left) return [];
    const { jumpers, lifted } = left.circuit;
    return [{ node: left, left: [...jumpers.map(([a, b]) => `jumper ${a} to ${b}`), ...lifted.map((lead) => `lead ${lead} lifted`)].join(', ') }];
  });
}
