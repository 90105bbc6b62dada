import { DIMENSIONS, type Dimension, overDimension } from './dimension.ts';

/** One unit: SI value = written value × factor + offset. */
export type Unit = {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: number;
  readonly offset: number;
};

type Row = readonly [symbol: string, dimension: Dimension, factor: number, aliases?: readonly string[], offset?: number];

// Conventional inch of water (1000 kg/m3): 249.08891 Pa, NIST SP 811. Pound, foot, gallon: exact definitions of 1959 and NIST HB 44.
const FOOT = 0.3048;
const POUND = 0.45359237;
const GALLON = 3.785411784e-3;
const FAHRENHEIT = 5 / 9;
// International Table; NIST SP 811.
const BTU = 1055.05585262;

const ROWS: readonly Row[] = [
  ['V', DIMENSIONS.voltage, 1, ['volt', 'volts', 'VAC', 'VDC', 'v']],
  ['mV', DIMENSIONS.voltage, 1e-3],
  ['kV', DIMENSIONS.voltage, 1e3],
  ['ohm', DIMENSIONS.resistance, 1, ['ohms', 'Ω']],
  ['mohm', DIMENSIONS.resistance, 1e-3, ['mΩ']],
  ['kohm', DIMENSIONS.resistance, 1e3, ['kΩ', 'Kohm', 'KΩ']],
  ['Mohm', DIMENSIONS.resistance, 1e6, ['MΩ', 'megohm', 'megohms']],
  ['A', DIMENSIONS.current, 1, ['amp', 'amps']],
  ['mA', DIMENSIONS.current, 1e-3],
  ['uA', DIMENSIONS.current, 1e-6, ['µA']],
  ['nA', DIMENSIONS.current, 1e-9],
  ['F', DIMENSIONS.capacitance, 1],
  ['uF', DIMENSIONS.capacitance, 1e-6, ['µF']],
  ['nF', DIMENSIONS.capacitance, 1e-9],
  ['pF', DIMENSIONS.capacitance, 1e-12],
  ['H', DIMENSIONS.inductance, 1],
  ['mH', DIMENSIONS.inductance, 1e-3],
  ['Hz', DIMENSIONS.frequency, 1],
  // Air changes per hour.
  ['ACH', DIMENSIONS.frequency, 1 / 3600, ['ach']],
  ['VA', DIMENSIONS.power, 1],
  ['W', DIMENSIONS.power, 1],
  ['kW', DIMENSIONS.power, 1e3],
  ['°C', DIMENSIONS.temperature, 1, ['degC'], 273.15],
  ['°F', DIMENSIONS.temperature, FAHRENHEIT, ['degF'], 459.67 * FAHRENHEIT],
  ['K', DIMENSIONS['temperature difference'], 1],
  ['F°', DIMENSIONS['temperature difference'], FAHRENHEIT],
  ['C°', DIMENSIONS['temperature difference'], 1],
  ['Pa', DIMENSIONS.pressure, 1],
  ['kPa', DIMENSIONS.pressure, 1e3],
  ['in. w.c.', DIMENSIONS.pressure, 249.08891, ['in w.c.', 'in. wc', 'in wc', 'inwc']],
  ['psi', DIMENSIONS.pressure, 6894.757293168],
  ['m', DIMENSIONS.length, 1],
  ['mm', DIMENSIONS.length, 1e-3],
  ['ft', DIMENSIONS.length, FOOT],
  ['in', DIMENSIONS.length, FOOT / 12],
  ['m2', DIMENSIONS.area, 1, ['m²']],
  ['ft2', DIMENSIONS.area, FOOT ** 2, ['ft²', 'sq ft']],
  ['m3', DIMENSIONS.volume, 1, ['m³']],
  ['ft3', DIMENSIONS.volume, FOOT ** 3, ['ft³', 'cu ft']],
  ['gal', DIMENSIONS.volume, GALLON],
  ['s', DIMENSIONS.time, 1],
  ['min', DIMENSIONS.time, 60],
  ['h', DIMENSIONS.time, 3600],
  ['day', DIMENSIONS.time, 86400],
  ['lb', DIMENSIONS.mass, POUND],
  ['kg', DIMENSIONS.mass, 1],
  ['gr', DIMENSIONS.mass, POUND / 7000, ['grain', 'grains']],
  ['gpd', DIMENSIONS['volume flow'], GALLON / 86400],
  ['cfm', DIMENSIONS['volume flow'], FOOT ** 3 / 60],
  ['Btu/(h·ft²·°F)', DIMENSIONS['thermal transmittance'], BTU / 3600 / FOOT ** 2 / FAHRENHEIT, ['Btu/(h·ft2·°F)', 'Btu/h/ft2/°F', 'Btu/h/ft2/F']],
  ['W/(m²·K)', DIMENSIONS['thermal transmittance'], 1, ['W/(m2·K)', 'W/m2/K']],
  ['%', DIMENSIONS.number, 0.01],
  ['%RH', DIMENSIONS.number, 0.01, ['% RH']],
  ['ppm', DIMENSIONS.number, 1e-6],
  ['AWG', DIMENSIONS['wire gauge'], 1],
];

const BY_TEXT = new Map<string, Unit>();
for (const [symbol, dimension, factor, aliases = [], offset = 0] of ROWS) {
  const unit: Unit = { symbol, dimension, factor, offset };
  for (const text of [symbol, ...aliases]) BY_TEXT.set(text, unit);
}

/** Every spelling of a simple unit, longest first: the order in which a reader of text must try them. */
export const UNIT_SPELLINGS: readonly string[] = [...BY_TEXT.keys()].sort((a, b) => b.length - a.length);

/** Both micro signs (U+00B5 and U+03BC) and both ohm signs (U+03A9 and U+2126) are typed in the field. */
export function plainUnitText(text: string): string {
  return text.replaceAll('\u03bc', '\u00b5').replaceAll('\u2126', '\u03a9').replace(/\s+/g, ' ').trim();
}

/** Reads `V`, `in. w.c.`, `pF/ft`. Undefined where it is no unit. */
export function unitOf(text: string): Unit | undefined {
  const plain = plainUnitText(text);
  const simple = BY_TEXT.get(plain);
  if (simple) return simple;
  const slash = plain.indexOf('/');
  if (slash < 0) return undefined;
  const over = BY_TEXT.get(plain.slice(0, slash).trim());
  const under = BY_TEXT.get(plain.slice(slash + 1).trim());
  if (!over || !under || over.offset !== 0 || under.offset !== 0) return undefined;
  const dimension = overDimension(over.dimension, under.dimension);
  if (!dimension) return undefined;
  return { symbol: `${over.symbol}/${under.symbol}`, dimension, factor: over.factor / under.factor, offset: 0 };
}

export const toSi = (written: number, unit: Unit): number => written * unit.factor + unit.offset;
export const fromSi = (si: number, unit: Unit): number => (si - unit.offset) / unit.factor;
