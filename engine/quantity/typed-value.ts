import { failure, type Result, success } from '../result.ts';
import { dimensionName } from './dimension.ts';
import { type QuantityKindName, quantityKind } from './quantity-kind.ts';
import { plainUnitText, toSi, type Unit, unitOf } from './unit.ts';

/** A value as a tech typed it, and what it was read as. */
export type TypedValue = {
  /** Character for character, for the log. */
  readonly typed: string;
  /** SI; 'open' where the meter shows over-range (OL). */
  readonly si: number | 'open';
  /** The unit it was read in: the typed one, or the assumed one with the typed prefix. */
  readonly unit: string;
  /** SI size of one step of the last digit typed; 0 for OL. */
  readonly resolution: number;
};

export type TypedValueProblem =
  | { readonly code: 'nothing-typed' }
  | { readonly code: 'not-a-number'; readonly typed: string }
  | { readonly code: 'comma-in-number'; readonly typed: string }
  | { readonly code: 'unit-not-known'; readonly typed: string; readonly unit: string }
  | { readonly code: 'wrong-unit'; readonly typed: string; readonly unit: string; readonly wants: string; readonly got: string }
  | { readonly code: 'below-possible'; readonly typed: string; readonly kind: QuantityKindName }
  | { readonly code: 'no-over-range'; readonly typed: string; readonly kind: QuantityKindName };

const OPEN = /^(ol|o\.l|0l|o\.?l\.?|open|overload|over-?range)$/i;
const NUMBER_THEN_REST = /^([+-]?)(\d+(?:\.\d*)?|\.\d+)(?:e([+-]?\d{1,3}))?\s*(.*)$/i;
const PREFIX: Readonly<Record<string, number>> = { k: 1e3, K: 1e3, M: 1e6, m: 1e-3, u: 1e-6, µ: 1e-6, n: 1e-9, p: 1e-12, meg: 1e6, Meg: 1e6 };

// Written prefixes on the units that a meter shows them on; a bare 'k' on volts means kV, on ohms kΩ.
function prefixed(prefix: string, base: Unit): Unit | undefined {
  const factor = PREFIX[prefix];
  if (factor === undefined || base.offset !== 0) return undefined;
  const plain = unitOf(base.symbol.replace(/^(m|u|n|p|k|M)(?=V|A|ohm|F|W)/, '')) ?? base;
  const letter = factor === 1e3 ? 'k' : factor === 1e6 ? 'M' : prefix === 'µ' ? 'u' : prefix;
  return unitOf(letter + plain.symbol) ?? { ...plain, symbol: `${letter}${plain.symbol}`, factor: plain.factor * factor };
}

/**
 * Reads what a tech typed for a reading or a fact of the given kind: `24.1`, `24.1 V`, `0.7 uA`, `1.2k`, `OL`.
 * A bare number is in `assumed` (the step's unit), or in the kind's own unit.
 */
export function readTypedValue(typed: string, kindName: QuantityKindName, assumed?: string): Result<TypedValue, TypedValueProblem> {
  const text = plainUnitText(typed).replace(/^\u2212/, '-');
  if (text === '') return failure({ code: 'nothing-typed' });
  const kind = quantityKind(kindName);
  if (OPEN.test(text)) {
    if (!kind.open) return failure({ code: 'no-over-range', typed, kind: kindName });
    return success({ typed, si: 'open', unit: assumed ?? kind.unit, resolution: 0 });
  }
  if (/\d,\d/.test(text)) return failure({ code: 'comma-in-number', typed });
  const match = NUMBER_THEN_REST.exec(text);
  if (!match) return failure({ code: 'not-a-number', typed });
  const [, sign = '', digits = '', exponent = '0', rest = ''] = match;
  const base = unitOf(assumed ?? kind.unit) ?? { symbol: '', dimension: kind.dimension, factor: 1, offset: 0 };
  const unit = rest === '' ? base : (unitOf(rest) ?? prefixed(rest, base));
  if (!unit) return failure({ code: 'unit-not-known', typed, unit: rest });
  if (unit.dimension !== kind.dimension) {
    return failure({ code: 'wrong-unit', typed, unit: unit.symbol, wants: base.symbol, got: dimensionName(unit.dimension) });
  }
  const written = Number(`${sign}${digits}e${exponent}`);
  const si = toSi(written, unit);
  if (!Number.isFinite(si)) return failure({ code: 'not-a-number', typed });
  if (si < kind.floor) return failure({ code: 'below-possible', typed, kind: kindName });
  const decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  return success({ typed, si, unit: unit.symbol, resolution: 10 ** (Number(exponent) - decimals) * unit.factor });
}
