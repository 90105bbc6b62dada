import { type QuantityKindName, quantityKind } from './quantity-kind.ts';
import { fromSi, type Unit, unitOf } from './unit.ts';

// The units that a meter steps through for one base unit, finest first.
const LADDERS: Readonly<Record<string, readonly string[]>> = {
  V: ['mV', 'V', 'kV'],
  ohm: ['ohm', 'kohm', 'Mohm'],
  A: ['uA', 'mA', 'A'],
  F: ['pF', 'nF', 'uF'],
};

/** How a unit is shown to people: `ohm` is the word in files, Ω the sign on a meter. */
export function unitSign(symbol: string): string {
  return symbol.replace('ohm', 'Ω').replace(/^u(?=[AF])/, 'µ');
}

function digits(value: number, significant: number): string {
  if (value === 0) return '0';
  const text = Number(value.toPrecision(significant));
  const size = Math.abs(text);
  const decimals = size >= 10 ** (significant - 1) ? 0 : Math.max(0, significant - 1 - Math.floor(Math.log10(size)));
  const fixed = text.toFixed(Math.min(decimals, 12));
  return fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
}

function ladderUnit(si: number, base: Unit): Unit {
  const root = base.symbol.replace(/^(m|u|n|p|k|M)(?=V|A|ohm|F)/, '');
  const ladder = LADDERS[root];
  if (!ladder) return base;
  const size = Math.abs(si);
  if (size === 0) return base;
  // 'mV' only where volts would lose the digits: a tech reads 0.31 V, not 310 mV.
  const floor = root === 'V' ? 0.01 : 1;
  for (const symbol of [...ladder].reverse()) {
    const unit = unitOf(symbol);
    if (unit && size / unit.factor >= (symbol === root ? floor : 1) * 0.9995) return unit;
  }
  return unitOf(ladder[0] ?? root) ?? base;
}

/**
 * A value for people: `24.1 V`, `1.2 kΩ`, `0.7 µA`, `72 °F`. `unit` fixes the unit; without it the kind's unit
 * is stepped by thousands as a meter would.
 */
export function showQuantity(si: number, kind: QuantityKindName, unit?: string, significant = 3): string {
  const base = unitOf(unit ?? quantityKind(kind).unit);
  if (!base) return digits(si, significant);
  return showIn(si, unit ? base : ladderUnit(si, base), significant);
}

/** A value in the given unit, with its sign: `14.4 V`. */
export function showIn(si: number, unit: Unit, significant = 3): string {
  const value = fromSi(si, unit);
  // Temperatures and percent are read to a tenth whatever their size.
  const text = unit.offset !== 0 || unit.symbol.startsWith('%') ? digits(Math.round(value * 10) / 10, 6) : digits(value, significant);
  return unit.symbol === '' ? text : `${text} ${unitSign(unit.symbol)}`;
}
