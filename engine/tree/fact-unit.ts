import { readFormula } from '../formula/index.ts';
import type { QuantityFact } from './tree.ts';

/** The unit that a bare number means for a fact: that of its usual value. */
export function factUnit(spec: QuantityFact): string | undefined {
  const usual = readFormula(spec.usual);
  return usual.ok && usual.value.op === 'literal' && usual.value.unit !== '' ? usual.value.unit : undefined;
}
