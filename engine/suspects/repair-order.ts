/** One repair that could be tried: how likely it is the right one, and what trying it costs (minutes, or money). */
export type Repair = { readonly probability: number; readonly cost: number };

/**
 * The order to try repairs in when no reading tells them apart, by number: probability over cost, highest first. Trying them so costs the least expected,
 * Σ Cᵢ (1 − Σ_{j before i} pⱼ) (Kadane and Simon 1977). What costs nothing comes first.
 */
export function repairOrder(repairs: readonly Repair[]): readonly number[] {
  const rate = ({ probability, cost }: Repair): number => (cost > 0 ? probability / cost : Number.POSITIVE_INFINITY);
  return [...repairs.entries()].sort(([i, a], [j, b]) => rate(b) - rate(a) || i - j).map(([i]) => i);
}

/** Expected cost of trying repairs in an order until the right one is found; `order` counts from 0. */
export function repairCost(repairs: readonly Repair[], order: readonly number[]): number {
  let left = 1;
  let cost = 0;
  for (const i of order) {
    cost += (repairs[i]?.cost ?? 0) * left;
    left -= repairs[i]?.probability ?? 0;
  }
  return cost;
}
