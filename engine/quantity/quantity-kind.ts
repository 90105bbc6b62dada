import { DIMENSIONS, type Dimension } from './dimension.ts';

/**
 * What a reading takes or a fact is. `unit` is the one assumed when a bare number is typed; `floor` is the least
 * value (SI) that a reading can show; `open` says that a meter on this range shows OL when nothing conducts.
 */
export type QuantityKind = {
  readonly dimension: Dimension;
  readonly unit: string;
  readonly label: string;
  /** What the dial or instrument is set to, in the tech's words. */
  readonly meter: string;
  readonly floor: number;
  readonly open: boolean;
};

const kind = (dimension: Dimension, unit: string, label: string, meter: string, floor = Number.NEGATIVE_INFINITY, open = false): QuantityKind => ({
  dimension,
  unit,
  label,
  meter,
  floor,
  open,
});

export const QUANTITY_KINDS = {
  'ac-voltage': kind(DIMENSIONS.voltage, 'V', 'AC volts', 'Meter on AC volts', 0),
  'dc-voltage': kind(DIMENSIONS.voltage, 'V', 'DC volts', 'Meter on DC volts'),
  resistance: kind(DIMENSIONS.resistance, 'ohm', 'Resistance', 'Meter on ohms', 0, true),
  continuity: kind(DIMENSIONS.resistance, 'ohm', 'Continuity', 'Meter on continuity', 0, true),
  capacitance: kind(DIMENSIONS.capacitance, 'uF', 'Capacitance', 'Meter on capacitance', 0, true),
  'ac-current': kind(DIMENSIONS.current, 'A', 'AC amps', 'Clamp or meter on AC amps', 0),
  'dc-current': kind(DIMENSIONS.current, 'mA', 'DC amps', 'Meter in series, on DC amps'),
  frequency: kind(DIMENSIONS.frequency, 'Hz', 'Frequency', 'Meter on Hz', 0),
  temperature: kind(DIMENSIONS.temperature, '°F', 'Temperature', 'Thermometer', 0),
  'temperature-difference': kind(DIMENSIONS['temperature difference'], 'F°', 'Temperature difference', 'Thermometer'),
  pressure: kind(DIMENSIONS.pressure, 'in. w.c.', 'Pressure', 'Manometer'),
  humidity: kind(DIMENSIONS.number, '%RH', 'Relative humidity', 'Hygrometer', 0),
  'apparent-power': kind(DIMENSIONS.power, 'VA', 'Apparent power', 'Rating or clamp', 0),
  power: kind(DIMENSIONS.power, 'W', 'Power', 'Wattmeter', 0),
  length: kind(DIMENSIONS.length, 'ft', 'Length', 'Tape', 0),
  area: kind(DIMENSIONS.area, 'ft2', 'Area', 'Tape', 0),
  volume: kind(DIMENSIONS.volume, 'ft3', 'Volume', 'Tape', 0),
  'wire-gauge': kind(DIMENSIONS['wire gauge'], 'AWG', 'Wire gauge', 'Printed on the jacket', 0),
  time: kind(DIMENSIONS.time, 's', 'Time', 'Watch', 0),
  'volume-flow': kind(DIMENSIONS['volume flow'], 'gpd', 'Flow', 'Off the plate, or volume over time', 0),
  'mass-flow': kind(DIMENSIONS['mass flow'], 'lb/h', 'Mass flow', 'Computed', 0),
  'air-changes': kind(DIMENSIONS.frequency, 'ACH', 'Air changes per hour', 'Blower-door report, or common practice', 0),
  'u-factor': kind(DIMENSIONS['thermal transmittance'], 'Btu/(h·ft²·°F)', 'U-factor', 'Label of the window', 0),
  concentration: kind(DIMENSIONS.number, 'ppm', 'Concentration', 'Gas monitor or analyzer', 0),
  number: kind(DIMENSIONS.number, '', 'Number', 'Counted'),
} as const satisfies Record<string, QuantityKind>;

export type QuantityKindName = keyof typeof QUANTITY_KINDS;

export const QUANTITY_KIND_NAMES = Object.keys(QUANTITY_KINDS) as [QuantityKindName, ...QuantityKindName[]];

/** A kind by its name; for names already checked by a schema. */
export const quantityKind = (name: QuantityKindName): QuantityKind => QUANTITY_KINDS[name];

/** The kinds whose test current or test charge must never meet a live circuit. */
export const NEEDS_DEAD_CIRCUIT: ReadonlySet<QuantityKindName> = new Set(['resistance', 'continuity', 'capacitance']);
