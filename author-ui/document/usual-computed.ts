import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import type { FactSpec, Step } from '../../engine/tree/index.ts';
import { type ComputedNumber, computedFormulas, computedNumber, siteFacts } from '../../engine/walk/index.ts';

/** The computed numbers of a step on a site where every fact is as usual. */
export function usualComputed(step: Step, facts: Readonly<Record<string, FactSpec>>): readonly ComputedNumber[] {
  if (step.computed === undefined) return [];
  const usual = siteFacts([facts]);
  return computedFormulas(step, usual, TRADE_FUNCTIONS).map((formula) => computedNumber(formula, usual, {}));
}
