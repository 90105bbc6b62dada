import { describe, expect, it } from 'vitest';
import type { QuantityKindName } from './quantity-kind.ts';
import { showQuantity } from './show-quantity.ts';
import { fromSi, toSi, unitOf } from './unit.ts';

describe('values for people', () => {
  it.each<[number, QuantityKindName, string | undefined, string]>([
    [24.1, 'ac-voltage', undefined, '24.1 V'],
    [0.31, 'ac-voltage', undefined, '0.31 V'],
    [0.0021, 'ac-voltage', undefined, '2.1 mV'],
    [1200, 'resistance', undefined, '1.2 kΩ'],
    [999.96, 'resistance', undefined, '1 kΩ'],
    [32680, 'resistance', undefined, '32.7 kΩ'],
    [10e6, 'resistance', undefined, '10 MΩ'],
    [0.7e-6, 'dc-current', 'uA', '0.7 µA'],
    [294.2611111, 'temperature', undefined, '70 °F'],
    [0.345, 'humidity', undefined, '34.5 %RH'],
    [871.8, 'pressure', undefined, '3.5 in. w.c.'],
    [0, 'ac-voltage', undefined, '0 V'],
    [18, 'wire-gauge', undefined, '18 AWG'],
  ])('%d %s in %s is %s', (si, kind, unit, text) => {
    expect(showQuantity(si, kind, unit)).toBe(text);
  });

  // NIST SP 811: conventional inch of water 249.08891 Pa; pound 0.45359237 kg; gallon 231 in³; 1 lb/h 1.259979e-4 kg/s; 1 gal/day 4.381264e-8 m³/s.
  it.each([
    ['in. w.c.', 249.08891],
    ['psi', 6894.757],
    ['lb/h', 1.259979e-4],
    ['gpd', 4.381264e-8],
    ['ft3', 0.028316846592],
  ])('one %s is %d SI', (symbol, si) => {
    const unit = unitOf(symbol);
    if (!unit) throw new Error(symbol);
    expect(toSi(1, unit) / si).toBeCloseTo(1, 6);
    expect(fromSi(toSi(3.7, unit), unit)).toBeCloseTo(3.7, 12);
  });
});
