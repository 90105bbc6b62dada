import type { FunctionTable } from '../formula/index.ts';
import { DIMENSIONS } from '../quantity/index.ts';
import { success } from '../result.ts';
import { apparentPower, coilVolts, reactivePower } from './power.ts';
import { numberArgument as num, quantityParameter as quantity } from './quantity-argument.ts';
import { transformerModel } from './transformer.ts';

const RATED_VOLTS = quantity('rated volts', DIMENSIONS.voltage, 'V');
const RATED_VA = quantity('rated VA', DIMENSIONS.power, 'VA');
const POWER_FACTOR = quantity('power factor', DIMENSIONS.number, '');
const APPARENT = 'Lessons in Electric Circuits, volume II, true, reactive and apparent power';

/** Loads on a transformer, and what they leave of its volts. */
export const POWER_FUNCTIONS = {
  'reactive-power': {
    parameters: [RATED_VA, POWER_FACTOR],
    result: DIMENSIONS.power,
    unit: 'VA',
    about: 'The reactive part of a load (VAR). Add these up, and the watts (VA times power factor), and give both sums to apparent-power.',
    source: APPARENT,
    compute: ([voltAmperes, powerFactor]) => reactivePower(num(voltAmperes), num(powerFactor)),
  },
  'apparent-power': {
    parameters: [quantity('watts', DIMENSIONS.power, 'W'), quantity('reactive power', DIMENSIONS.power, 'VA')],
    result: DIMENSIONS.power,
    unit: 'VA',
    about: 'VA of loads whose watts and reactive parts were added up apart: what a transformer really carries.',
    source: APPARENT,
    compute: ([watts, reactive]) => apparentPower(num(watts), num(reactive)),
  },
  'transformer-ohms': {
    parameters: [RATED_VOLTS, RATED_VA, quantity('no-load volts', DIMENSIONS.voltage, 'V')],
    result: DIMENSIONS.resistance,
    unit: 'ohm',
    about: 'Ohms that a transformer has in series with its secondary, from its label and the volts that it shows with nothing on it.',
    source:
      '(no-load − rated volts) / (VA / rated volts): voltage regulation, Lessons in Electric Circuits, volume II; all of it taken as resistance',
    // The primary's volts do not enter the series resistance.
    compute: ([ratedVolts, voltAmperes, noLoadVolts]) => {
      const model = transformerModel(num(ratedVolts), num(ratedVolts), num(voltAmperes), num(noLoadVolts));
      return model.ok ? success(model.value.seriesOhms) : model;
    },
  },
  'coil-volts': {
    parameters: [
      quantity('no-load volts', DIMENSIONS.voltage, 'V'),
      quantity('ohms in series', DIMENSIONS.resistance, 'ohm'),
      { ...RATED_VOLTS, name: 'rated volts of the coil' },
      { ...RATED_VA, name: 'VA of the coil' },
      POWER_FACTOR,
    ],
    result: DIMENSIONS.voltage,
    unit: 'V',
    about: 'Volts that reach a coil through transformer, cable and contacts. With its inrush VA: the volts that it has to pull in with.',
    source: 'series circuit of impedances, Lessons in Electric Circuits, volume II; coil as rated volts squared over VA',
    compute: ([noLoadVolts, ohms, ratedVolts, voltAmperes, powerFactor]) =>
      coilVolts(num(noLoadVolts), num(ohms), num(ratedVolts), num(voltAmperes), num(powerFactor)),
  },
} as const satisfies FunctionTable;
