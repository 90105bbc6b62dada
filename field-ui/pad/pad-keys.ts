import { type QuantityKindName, quantityKind, unitOf, unitSign } from '../../engine/quantity/index.ts';

/** The keys beside the digits that make sense for what is measured. Units are as they are typed and shown. */
export type PadKeys = { readonly units: readonly string[]; readonly sign: boolean; readonly open: boolean };

// The other units that a display may show for the unit a bare number is read in.
const OTHERS: Readonly<Record<string, readonly string[]>> = {
  V: ['mV'],
  mV: ['V'],
  ohm: ['kohm', 'Mohm'],
  kohm: ['ohm', 'Mohm'],
  Mohm: ['ohm', 'kohm'],
  A: ['mA'],
  mA: ['uA', 'A'],
  uA: ['mA'],
  uF: ['nF'],
  nF: ['uF'],
  '°F': ['°C'],
  '°C': ['°F'],
  'in. w.c.': ['Pa'],
  Pa: ['in. w.c.'],
  s: ['min'],
  min: ['s'],
  h: ['min'],
  ft: ['in'],
  in: ['ft'],
  m: ['ft'],
};

/** `assumed` is the unit of a bare number where it is not the kind's own. */
export function padKeys(kindName: QuantityKindName, assumed?: string): PadKeys {
  const kind = quantityKind(kindName);
  const unit = assumed ?? kind.unit;
  const offset = unitOf(unit)?.offset ?? 0;
  return { units: (OTHERS[unit] ?? []).map(unitSign), sign: kind.floor < 0 || offset !== 0, open: kind.open };
}
