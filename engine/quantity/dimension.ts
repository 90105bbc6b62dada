/**
 * Physical dimensions as exponents of (kg, m, s, A, K), written as one string so that `===` compares them.
 * Two dimensions take no arithmetic of their own: a temperature on a scale (70 °F is not twice 35 °F) and a
 * wire gauge (a number of drawing steps).
 */
export type Dimension = string & { readonly __dimension: unique symbol };

const BASES = 5;

function key(exponents: readonly number[]): Dimension {
  return exponents.join(' ') as Dimension;
}

export const NUMBER = key([0, 0, 0, 0, 0]);
export const TEMPERATURE = 'temperature' as Dimension;
export const TEMPERATURE_DIFFERENCE = key([0, 0, 0, 0, 1]);
export const WIRE_GAUGE = 'gauge' as Dimension;

/** Named dimensions, by the words that messages use. */
export const DIMENSIONS = {
  number: NUMBER,
  voltage: key([1, 2, -3, -1, 0]),
  current: key([0, 0, 0, 1, 0]),
  resistance: key([1, 2, -3, -2, 0]),
  conductance: key([-1, -2, 3, 2, 0]),
  capacitance: key([-1, -2, 4, 2, 0]),
  inductance: key([1, 2, -2, -2, 0]),
  frequency: key([0, 0, -1, 0, 0]),
  power: key([1, 2, -3, 0, 0]),
  temperature: TEMPERATURE,
  'temperature difference': TEMPERATURE_DIFFERENCE,
  pressure: key([1, -1, -2, 0, 0]),
  length: key([0, 1, 0, 0, 0]),
  area: key([0, 2, 0, 0, 0]),
  volume: key([0, 3, 0, 0, 0]),
  time: key([0, 0, 1, 0, 0]),
  mass: key([1, 0, 0, 0, 0]),
  'volume flow': key([0, 3, -1, 0, 0]),
  'mass flow': key([1, 0, -1, 0, 0]),
  'resistance per length': key([1, 1, -3, -2, 0]),
  'capacitance per length': key([-1, -3, 4, 2, 0]),
  'thermal transmittance': key([1, 0, -3, 0, -1]),
  'wire gauge': WIRE_GAUGE,
} as const satisfies Record<string, Dimension>;

export type DimensionName = keyof typeof DIMENSIONS;

function combine(a: Dimension, b: Dimension, sign: 1 | -1): Dimension | undefined {
  if (a === TEMPERATURE || b === TEMPERATURE || a === WIRE_GAUGE || b === WIRE_GAUGE) return undefined;
  const left = a.split(' ').map(Number);
  const right = b.split(' ').map(Number);
  // Zero is written without a sign, so that 0 and -0 give one key.
  return key(Array.from({ length: BASES }, (_, i) => (left[i] ?? 0) + sign * (right[i] ?? 0) + 0));
}

/** The dimension of a product; undefined where the product has no meaning. */
export const timesDimension = (a: Dimension, b: Dimension): Dimension | undefined => combine(a, b, 1);

/** The dimension of a quotient; undefined where the quotient has no meaning. */
export const overDimension = (a: Dimension, b: Dimension): Dimension | undefined => combine(a, b, -1);

const NAMES = new Map<Dimension, DimensionName>((Object.keys(DIMENSIONS) as DimensionName[]).map((name) => [DIMENSIONS[name], name]));

/** The word for a dimension, for messages. */
export function dimensionName(dimension: Dimension): string {
  return NAMES.get(dimension) ?? 'a compound quantity';
}
