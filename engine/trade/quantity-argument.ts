import type { FormulaParameter } from '../formula/index.ts';
import type { Dimension } from '../quantity/index.ts';

/** A parameter that takes a quantity; `unit` is the one in which it is asked for. */
export const quantityParameter = (name: string, dimension: Dimension, unit: string): FormulaParameter => ({
  name,
  takes: 'quantity',
  dimension,
  unit,
});

/** A quantity among the arguments of a function; these were checked against its parameters before a formula is computed. */
export const numberArgument = (value: number | string | undefined): number => (typeof value === 'number' ? value : Number.NaN);
