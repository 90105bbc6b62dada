import { bandEdges, bandInterval, readBand } from '../../engine/formula/index.ts';
import type { QuantityKindName } from '../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { type FactSpec, isChoice, type Step } from '../../engine/tree/index.ts';
import { factUnit, factValue, siteFacts } from '../../engine/walk/index.ts';
import { rangeWords } from '../../shared/ui/band-words.ts';

/** What the bands of a step are on, and the unit that its numbers are shown in; undefined where a step has no bands. */
function scaleOf(
  step: Step,
  facts: Readonly<Record<string, FactSpec>>,
): { readonly kind: QuantityKindName; readonly unit?: string | undefined } | undefined {
  if (step.kind === 'reading') return { kind: step.takes, unit: step.unit };
  const fact = step.kind === 'ask' ? facts[step.fact] : undefined;
  return fact && !isChoice(fact) ? { kind: fact.quantity, unit: factUnit(fact) } : undefined;
}

/**
 * The numbers that a band has on a site where every fact is as usual, such as `20.4 V to 28.8 V`. Undefined where the band's own text
 * says its numbers already, where it has none, and where they cannot be computed.
 */
export function usualNumbers(on: string, step: Step, facts: Readonly<Record<string, FactSpec>>): string | undefined {
  const scale = scaleOf(step, facts);
  const band = readBand(on);
  if (!scale || !band.ok) return undefined;
  const edges = Object.values(bandEdges(band.value));
  if (edges.length === 0 || edges.every((edge) => edge.op === 'literal')) return undefined;
  const usual = siteFacts([facts]);
  const interval = bandInterval(band.value, { value: (name) => factValue(usual, {}, name), functions: TRADE_FUNCTIONS });
  if (!interval || Number.isNaN(interval.low) || Number.isNaN(interval.high)) return undefined;
  const end = (si: number): number | null => (Number.isFinite(si) ? si : null);
  return rangeWords(end(interval.low), end(interval.high), scale.kind, scale.unit);
}
