import { quantityKind } from './quantity-kind.ts';
import { showQuantity } from './show-quantity.ts';
import type { TypedValueProblem } from './typed-value.ts';

/** What was wrong with a typed value and what to type instead, in words. */
export function typedValueWords(problem: TypedValueProblem): { readonly message: string; readonly fix: string } {
  switch (problem.code) {
    case 'nothing-typed':
      return { message: 'Nothing is typed.', fix: 'Type what the meter shows, such as 24.1.' };
    case 'not-a-number':
      return { message: `“${problem.typed}” is not a number.`, fix: 'Type digits as the meter shows them, such as 24.1, 1.2k, or OL.' };
    case 'comma-in-number':
      return {
        message: `“${problem.typed}” has a comma; it could be a thousand or a decimal.`,
        fix: 'Use a point for decimals and no mark for thousands: 1200 or 1.2k.',
      };
    case 'unit-not-known':
      return { message: `“${problem.unit}” is not a unit known here.`, fix: 'Leave the unit off, or use one such as V, ohm, k, mA or uA.' };
    case 'wrong-unit':
      return {
        message: `${problem.unit} is ${problem.got}; this reading is in ${problem.wants}.`,
        fix: `Type the number in ${problem.wants}, or check the meter's dial.`,
      };
    case 'below-possible':
      return {
        message: `“${problem.typed}” is less than ${quantityKind(problem.kind).label.toLowerCase()} can be (${showQuantity(quantityKind(problem.kind).floor, problem.kind)}).`,
        fix: 'Check the sign, and that the meter is on the right dial setting.',
      };
    case 'no-over-range':
      return {
        message: `A meter on ${quantityKind(problem.kind).label} shows a number, not OL.`,
        fix: 'OL here means that the range is too small: choose a higher range and read again.',
      };
  }
}
