import {
  fromSi,
  type QuantityKindName,
  quantityKind,
  readTypedValue,
  type TypedValue,
  type TypedValueProblem,
  typedValueWords,
  unitOf,
  unitSign,
} from '../../engine/quantity/index.ts';

/** What the typed text would be read as. `shown` has every digit that was typed, with its unit. */
export type Echo =
  | { readonly ok: true; readonly shown: string; readonly si: number | 'open' }
  | { readonly ok: false; readonly code: TypedValueProblem['code']; readonly message: string; readonly fix: string };

export function typedEcho(typed: string, kind: QuantityKindName, assumed?: string): Echo {
  const read = readTypedValue(typed, kind, assumed);
  if (!read.ok) return { ok: false, code: read.problem.code, ...typedValueWords(read.problem) };
  return { ok: true, shown: shownValue(read.value), si: read.value.si };
}

/** A value as the meter showed it: every digit that was typed, with its unit. */
export function shownValue({ si, unit: symbol, resolution }: Pick<TypedValue, 'si' | 'unit' | 'resolution'>): string {
  if (si === 'open') return 'OL';
  const unit = unitOf(symbol);
  const written = unit ? fromSi(si, unit) : si;
  const decimals = resolution > 0 && unit ? Math.min(12, Math.max(0, Math.round(-Math.log10(resolution / unit.factor)))) : 0;
  const number = written.toFixed(decimals);
  return symbol === '' ? number : `${number} ${unitSign(symbol)}`;
}

/** The unit that a bare number is read in, as people see it. */
export const assumedUnit = (kind: QuantityKindName, assumed?: string): string => unitSign(assumed ?? quantityKind(kind).unit);
