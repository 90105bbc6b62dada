import { type QuantityKindName, showQuantity } from '../../engine/quantity/index.ts';

/** The numbers of a stretch in words: `below 2 V`, `20.4 V to 28.8 V`, `28.8 V and above`. `unit` fixes the unit of both ends. */
export function rangeWords(low: number | null, high: number | null, kind: QuantityKindName, unit?: string): string {
  const show = (si: number): string => showQuantity(si, kind, unit);
  if (low === null && high === null) return 'anything else';
  if (low === null) return `below ${show(high ?? 0)}`;
  if (high === null) return `${show(low)} and above`;
  return `${show(low)} to ${show(high)}`;
}
