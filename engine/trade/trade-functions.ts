import type { FormulaFunction, FormulaParameter, FunctionTable } from '../formula/index.ts';
import { DIMENSIONS } from '../quantity/index.ts';
import { success } from '../result.ts';
import { AIR_FUNCTIONS } from './air-functions.ts';
import { coilImpedance } from './coil.ts';
import { HUMIDITY_FUNCTIONS } from './humidity-functions.ts';
import { POWER_FUNCTIONS } from './power-functions.ts';
import { numberArgument as num, quantityParameter as quantity } from './quantity-argument.ts';
import { CURVES, THERMISTOR_CURVES, type ThermistorCurve, thermistorMismatch, thermistorOhms, thermistorTemperature } from './thermistor.ts';
import { transformerLoading } from './transformer.ts';
import { cableDrop, wireOhms } from './wire.ts';

const R25 = quantity('ohms at 25 °C', DIMENSIONS.resistance, 'ohm');
const CURVE = { name: 'curve', takes: 'choice', choices: THERMISTOR_CURVES } as const satisfies FormulaParameter;
const GAUGE = quantity('gauge', DIMENSIONS['wire gauge'], 'AWG');
const LENGTH = quantity('length', DIMENSIONS.length, 'ft');
const COPPER = 'ASTM B258 diameters, international annealed copper (IEC 60028)';

const curveOf = (value: number | string | undefined): ThermistorCurve => THERMISTOR_CURVES.find((name) => name === value) ?? 'type-2';
const SOURCES = THERMISTOR_CURVES.map((name) => `${name}: ${CURVES[name].source}`).join('; ');

const number = (compute: (...values: number[]) => number): FormulaFunction['compute'] => {
  return (args) => success(compute(...args.map(num)));
};

/** What formulas may call: the trade's published curves. All pure; every argument and result in SI. */
export const TRADE_FUNCTIONS = {
  ntc: {
    parameters: [R25, CURVE, quantity('temperature', DIMENSIONS.temperature, '°F')],
    result: DIMENSIONS.resistance,
    unit: 'ohm',
    about: 'Ohms of an NTC thermistor at a temperature.',
    source: SOURCES,
    compute: ([ohms, curve, kelvin]) => thermistorOhms(num(ohms), curveOf(curve), num(kelvin)),
  },
  'ntc-temperature': {
    parameters: [R25, CURVE, quantity('ohms', DIMENSIONS.resistance, 'ohm')],
    result: DIMENSIONS.temperature,
    unit: '°F',
    about: 'The temperature at which an NTC thermistor has these ohms.',
    source: SOURCES,
    compute: ([at25, curve, ohms]) => thermistorTemperature(num(at25), curveOf(curve), num(ohms)),
  },
  'ntc-error': {
    parameters: [
      R25,
      { ...CURVE, name: "sensor's curve" },
      { ...CURVE, name: "control's curve" },
      quantity('true temperature', DIMENSIONS.temperature, '°F'),
    ],
    result: DIMENSIONS['temperature difference'],
    unit: 'F°',
    about: 'How much too warm (above 0) or too cold a control shows, when its sensor has another curve than it was made for.',
    source: SOURCES,
    compute: ([at25, sensor, control, kelvin]) => thermistorMismatch(num(at25), curveOf(sensor), curveOf(control), num(kelvin)),
  },
  wire: {
    parameters: [GAUGE, LENGTH],
    result: DIMENSIONS.resistance,
    unit: 'ohm',
    about: 'Ohms of one copper conductor at 20 °C (68 °F). One way: a pair out and back has twice it.',
    source: COPPER,
    compute: ([gauge, length]) => wireOhms(num(gauge), num(length)),
  },
  'wire-at': {
    parameters: [GAUGE, LENGTH, quantity('temperature', DIMENSIONS.temperature, '°F')],
    result: DIMENSIONS.resistance,
    unit: 'ohm',
    about: 'Ohms of one copper conductor at a temperature. One way: a pair out and back has twice it.',
    source: COPPER,
    compute: ([gauge, length, kelvin]) => wireOhms(num(gauge), num(length), num(kelvin)),
  },
  'cable-drop': {
    parameters: [GAUGE, LENGTH, quantity('current', DIMENSIONS.current, 'A'), quantity('temperature', DIMENSIONS.temperature, '°F')],
    result: DIMENSIONS.voltage,
    unit: 'V',
    about: 'Volts lost along a pair of copper conductors, out and back, over a length told one way.',
    source: `${COPPER}; twice the ohms of one conductor times the current`,
    compute: ([gauge, length, amperes, kelvin]) => cableDrop(num(gauge), num(length), num(amperes), num(kelvin)),
  },
  'transformer-loading': {
    parameters: [quantity('sum of the VA', DIMENSIONS.power, 'VA'), quantity('rated VA', DIMENSIONS.power, 'VA')],
    result: DIMENSIONS.number,
    unit: '%',
    about: 'Share of a transformer’s rating that everything on it draws; over 100 % it overheats.',
    source: 'rating of a transformer in volt-amperes: Lessons in Electric Circuits, volume II, apparent power; summing the labels: common practice',
    compute: ([load, rated]) => transformerLoading(num(load), num(rated)),
  },
  'coil-impedance': {
    parameters: [quantity('rated volts', DIMENSIONS.voltage, 'V'), quantity('rated VA', DIMENSIONS.power, 'VA')],
    result: DIMENSIONS.resistance,
    unit: 'ohm',
    about: 'Impedance of a coil from its rating, volts squared over volt-amperes. Not what an ohmmeter shows: that is the winding alone.',
    source: 'Lessons in Electric Circuits, volume II, apparent power',
    compute: ([volts, va]) => {
      const coil = coilImpedance(num(volts), num(va), 0);
      return coil.ok ? success(coil.value.impedance) : coil;
    },
  },
  'greater-volts': {
    parameters: [quantity('one', DIMENSIONS.voltage, 'V'), quantity('other', DIMENSIONS.voltage, 'V')],
    result: DIMENSIONS.voltage,
    unit: 'V',
    about: 'The greater of two voltages.',
    source: 'arithmetic',
    compute: number((a = Number.NaN, b = Number.NaN) => Math.max(a, b)),
  },
  'lesser-volts': {
    parameters: [quantity('one', DIMENSIONS.voltage, 'V'), quantity('other', DIMENSIONS.voltage, 'V')],
    result: DIMENSIONS.voltage,
    unit: 'V',
    about: 'The lesser of two voltages.',
    source: 'arithmetic',
    compute: number((a = Number.NaN, b = Number.NaN) => Math.min(a, b)),
  },
  'parallel-ohms': {
    parameters: [quantity('one', DIMENSIONS.resistance, 'ohm'), quantity('other', DIMENSIONS.resistance, 'ohm')],
    result: DIMENSIONS.resistance,
    unit: 'ohm',
    about: 'Two resistances side by side: what a meter shows across both.',
    source: 'R1·R2 / (R1 + R2)',
    compute: number((a = Number.NaN, b = Number.NaN) => (a * b) / (a + b)),
  },
  ...POWER_FUNCTIONS,
  ...AIR_FUNCTIONS,
  ...HUMIDITY_FUNCTIONS,
} as const satisfies FunctionTable;
