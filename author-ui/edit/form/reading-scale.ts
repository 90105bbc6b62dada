import type { Environment } from '../../../engine/formula/index.ts';
import { type QuantityKindName, quantityKind } from '../../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../../engine/trade/index.ts';
import { type FactSpec, isChoice, type Step } from '../../../engine/tree/index.ts';
import { factUnit, factValue, siteFacts } from '../../../engine/walk/index.ts';

/** What the bands of a step are on, and the unit that its numbers are shown in; undefined where a step has no bands. */
export function scaleOf(
  step: Step,
  facts: Readonly<Record<string, FactSpec>>,
): { readonly kind: QuantityKindName; readonly unit: string } | undefined {
  if (step.kind === 'reading') return { kind: step.takes, unit: step.unit ?? quantityKind(step.takes).unit };
  const fact = step.kind === 'ask' ? facts[step.fact] : undefined;
  return fact && !isChoice(fact) ? { kind: fact.quantity, unit: factUnit(fact) ?? quantityKind(fact.quantity).unit } : undefined;
}

/** Formulas worked out for a site where every fact is as usual. */
export function usualSite(facts: Readonly<Record<string, FactSpec>>): Environment {
  const usual = siteFacts([facts]);
  return { value: (name) => factValue(usual, {}, name), functions: TRADE_FUNCTIONS };
}

/** A scale from its least to its greatest value in SI; by tenfolds where its edges lie that far apart. */
export type Axis = { readonly from: number; readonly to: number; readonly isLog: boolean };

/** A reading this much smaller than the least edge says only that it is next to nothing. */
const NEXT_TO_NOTHING = 0.1;

/**
 * The axis that shows all edges and readings with room at both ends. On a scale by tenfolds a reading of next to nothing stands at the low
 * end: there is no zero.
 */
export function axisOf(edges: readonly number[], floor: number, readings: readonly number[] = []): Axis {
  const all = [...edges, ...readings];
  if (all.length === 0) return { from: Number.isFinite(floor) ? floor : -1, to: (Number.isFinite(floor) ? floor : 0) + 1, isLog: false };
  const most = Math.max(...all);
  const anchor = Math.min(...(edges.length > 0 ? edges : readings));
  if (anchor > 0 && floor >= 0 && most / anchor > 30) {
    const least = Math.min(anchor, ...readings.filter((si) => si > anchor * NEXT_TO_NOTHING));
    return { from: least / 4, to: most * 4, isLog: true };
  }
  const least = Math.min(...all);
  const reach = most - least || Math.abs(most) || 1;
  const low = least - 0.3 * reach;
  return { from: Number.isFinite(floor) && low < floor + 0.3 * reach ? Math.min(floor, least) : low, to: most + 0.3 * reach, isLog: false };
}

/** How far along an axis a value lies, 0 to 1. */
export function alongAxis({ from, to, isLog }: Axis, si: number): number {
  const along = isLog ? Math.log(Math.max(si, from) / from) / Math.log(to / from) : (si - from) / (to - from);
  return Math.min(1, Math.max(0, along));
}

/** The value at a place of an axis. */
export const onAxis = ({ from, to, isLog }: Axis, along: number): number => (isLog ? from * (to / from) ** along : from + along * (to - from));
