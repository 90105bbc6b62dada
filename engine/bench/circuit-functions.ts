import type { FormulaFunction, FunctionTable } from '../formula/index.ts';
import { DIMENSIONS, type Dimension } from '../quantity/index.ts';
import { failure } from '../result.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';

/** The functions of a solved circuit; conditions may call them, values may not. */
export const CIRCUIT_FUNCTION_NAMES = ['volts', 'dc-volts', 'amps', 'dc-amps'] as const;
export type CircuitFunctionName = (typeof CIRCUIT_FUNCTION_NAMES)[number];

function circuitFunction(parameters: readonly string[], result: Dimension, unit: string, about: string): FormulaFunction {
  return {
    parameters: parameters.map((name) => ({ name, takes: 'symbol' })),
    result,
    unit,
    about,
    source: 'the solved circuit',
    // Conditions are compiled against a circuit (condition-rule.ts); without one there is nothing to read.
    compute: () => failure({ code: 'value-missing', what: 'the solved circuit' }),
  };
}

export const CONDITION_FUNCTIONS: FunctionTable = {
  ...TRADE_FUNCTIONS,
  volts: circuitFunction(['node', 'node'], DIMENSIONS.voltage, 'V', 'AC volts between two nodes.'),
  'dc-volts': circuitFunction(['node', 'node'], DIMENSIONS.voltage, 'V', 'DC volts of the first node against the second.'),
  amps: circuitFunction(['part'], DIMENSIONS.current, 'A', 'AC amps through a part.'),
  'dc-amps': circuitFunction(['part'], DIMENSIONS.current, 'A', 'DC amps through a part, or the rectified current of a flame.'),
};
