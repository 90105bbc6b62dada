import type { ComputeProblem, FormulaProblem } from './formula.ts';

export type Words = { readonly message: string; readonly fix: string };

const listed = (names: readonly string[]): string =>
  names.length === 0 ? 'none here' : names.slice(0, 12).join(', ') + (names.length > 12 ? ', …' : '');

/** What is wrong with a formula, band or condition, and the way out, in words. */
export function formulaWords(problem: FormulaProblem): Words {
  switch (problem.code) {
    case 'cannot-read':
      return { message: `Found “${problem.found}” where ${problem.expected} was expected.`, fix: `Write ${problem.expected} there.` };
    case 'unit-not-known':
      return {
        message: `“${problem.found}” is not a unit known here.`,
        fix: 'Use a unit of the list in trees/README.md, such as V, ohm, uA, °F or ft.',
      };
    case 'unknown-name':
      return { message: `“${problem.name}” is not known here.`, fix: `Use one of: ${listed(problem.known)}.` };
    case 'unknown-function':
      return { message: `There is no function “${problem.name}”.`, fix: `Use one of: ${listed(problem.known)}.` };
    case 'wrong-arguments':
      return { message: `“${problem.name}” is not called like this.`, fix: `Write it as ${problem.expected}.` };
    case 'dimensions-differ':
      if (problem.operator === 'band') {
        return { message: `The reading is ${problem.left}, but this is ${problem.right}.`, fix: `Write it as ${problem.left}, with its unit.` };
      }
      return { message: `“${problem.operator}” cannot join ${problem.left} and ${problem.right}.`, fix: 'Give both sides the same kind of unit.' };
    case 'not-arithmetic':
      return {
        message: `“${problem.operator}” has no meaning on ${problem.got}.`,
        fix: 'A temperature on a scale or a gauge takes no percent and no minus sign; write a difference (F°) or a function.',
      };
    case 'not-computable':
      return computeWords(problem.why);
  }
}

/** Why a function or formula has no answer, in words. */
export function computeWords(why: ComputeProblem): Words {
  switch (why.code) {
    case 'out-of-range':
      return {
        message: `${why.what} of ${number(why.value)}${unit(why.unit)} is outside ${number(why.from)} to ${number(why.to)}${unit(why.unit)}, where the source of this function holds.`,
        fix: 'Check the value; outside that range the function has no sourced answer.',
      };
    case 'no-answer':
      return { message: `There is no value: ${why.what}.`, fix: 'Change the formula or the facts so that it has one.' };
    case 'value-missing':
      return { message: `“${why.what}” has no value yet.`, fix: `Tell “${why.what}” first.` };
  }
}

const unit = (symbol: string): string => (symbol === '' ? '' : ` ${symbol}`);
const number = (value: number): string => String(Number(value.toPrecision(4)));
