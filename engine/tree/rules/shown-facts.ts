import type { FactPoint } from '../../formula/index.ts';
import { type QuantityKindName, quantityKind, showIn, showQuantity, unitOf } from '../../quantity/index.ts';
import { isChoice } from '../tree.ts';
import type { FactsShown } from '../tree-problem.ts';
import type { FactScope } from './fact-scope.ts';

// One digit more than a meter's usual three, so that two edges which differ are seen to differ.
const DIGITS = 4;

/** A value of a reading, in the step's unit where it names one. Undefined where the range has no end. */
export function shownEdge(si: number, takes: QuantityKindName, unit: string | undefined): string | undefined {
  if (!Number.isFinite(si)) return undefined;
  const own = unit === undefined ? undefined : unitOf(unit);
  return own && own.dimension === quantityKind(takes).dimension ? showIn(si, own, DIGITS) : showQuantity(si, takes, undefined, DIGITS);
}

/** Facts with their values at one point, as `coil-rated 24 V`. */
export function shownFacts(point: FactPoint, facts: FactScope): FactsShown {
  return Object.entries(point).flatMap(([name, si]) => {
    const spec = facts.specs.get(name);
    return spec && !isChoice(spec) ? [`${name} ${showQuantity(si, spec.quantity, undefined, DIGITS)}`] : [];
  });
}
