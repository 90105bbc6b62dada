import { type QuantityKindName, readTypedValue } from '../quantity/index.ts';

/** A fact's value as text that reads the same everywhere, and in SI. */
export type QuantityText = { readonly text: string; readonly si: number };

export type QuantityTextFault = 'not-a-quantity' | 'wrong-unit';

const WRITTEN = /^\s*([+\u2212-]?)((?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?)/i;

/** Reads `120 V`, `120V`, `120`, `1.2k` as a quantity of this kind: the digits as written, with the unit spelled out. */
export function quantityText(written: string, kind: QuantityKindName): QuantityText | QuantityTextFault {
  const read = readTypedValue(written, kind);
  if (!read.ok) return read.problem.code === 'wrong-unit' || read.problem.code === 'unit-not-known' ? 'wrong-unit' : 'not-a-quantity';
  const { si, unit } = read.value;
  const number = WRITTEN.exec(written);
  if (si === 'open' || !number) return 'not-a-quantity';
  const sign = number[1] === '' || number[1] === '+' ? '' : '-';
  const text = `${sign}${number[2]}${unit === '' ? '' : ` ${unit}`}`;
  // A prefix that no meter shows (5 kft) is read as typed but has no unit to be written with.
  const again = readTypedValue(text, kind);
  return again.ok && again.value.si === si ? { text, si } : 'wrong-unit';
}
