import { type Dimension, dimensionName, TEMPERATURE, TEMPERATURE_DIFFERENCE } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import { type Environment, evaluate } from './evaluate.ts';
import type { Formula, FormulaProblem } from './formula.ts';
import { type FormulaCursor, readWhole, toleranceOf } from './formula-reader.ts';
import { dimensionOf, type FormulaScope } from './formula-type.ts';
import { showFormula } from './show-formula.ts';

/**
 * A range of values of a reading. Every band holds its lower edge and not its upper one, so that neighbours written
 * with the same edge leave no point over and share none: `below X` is up to but not X, `above X` is X and up.
 */
export type Band =
  | { readonly kind: 'below'; readonly edge: Formula }
  | { readonly kind: 'above'; readonly edge: Formula }
  | { readonly kind: 'range'; readonly from: Formula; readonly to: Formula }
  | { readonly kind: 'within-percent'; readonly percent: string; readonly of: Formula }
  | { readonly kind: 'within'; readonly by: Formula; readonly of: Formula }
  | { readonly kind: 'open' }
  | { readonly kind: 'otherwise' };

/** A band's numbers in SI for one set of facts; NaN where an edge cannot be computed. */
export type Interval = { readonly low: number; readonly high: number };

function bandOf(cursor: FormulaCursor): Band {
  if (cursor.accept('otherwise')) return { kind: 'otherwise' };
  if (cursor.accept('open')) return { kind: 'open' };
  if (cursor.accept('below')) return { kind: 'below', edge: cursor.formula() };
  if (cursor.accept('above')) return { kind: 'above', edge: cursor.formula() };
  if (cursor.accept('within')) return withinOf(cursor);
  const from = cursor.formula();
  cursor.expect('to');
  return { kind: 'range', from, to: cursor.formula() };
}

function withinOf(cursor: FormulaCursor): Band {
  const by = cursor.formula();
  if (by.op === 'percent-of') return { kind: 'within-percent', percent: by.percent, of: by.of };
  cursor.expect('of');
  return { kind: 'within', by: toleranceOf(by), of: cursor.formula() };
}

/** Reads `below X`, `X to Y`, `above X`, `within P % of X`, `within D of X`, `open`, `otherwise`. */
export const readBand = (text: string): Result<Band, FormulaProblem> => readWhole(text, bandOf);

/** The canonical text of a band. */
export function showBand(band: Band): string {
  switch (band.kind) {
    case 'below':
    case 'above':
      return `${band.kind} ${showFormula(band.edge)}`;
    case 'range':
      return `${showFormula(band.from)} to ${showFormula(band.to)}`;
    case 'within-percent':
      return `within ${band.percent} % of ${bracketed(band.of)}`;
    case 'within':
      return `within ${showFormula(band.by)} of ${showFormula(band.of)}`;
    default:
      return band.kind;
  }
}

const bracketed = (formula: Formula): string => ('left' in formula ? `(${showFormula(formula)})` : showFormula(formula));

/** The formulas of a band's lower and upper edge; undefined where the band is unbounded on that side. */
export function bandEdges(band: Band): { readonly low?: Formula; readonly high?: Formula } {
  switch (band.kind) {
    case 'below':
      return { high: band.edge };
    case 'above':
      return { low: band.edge };
    case 'range':
      return { low: band.from, high: band.to };
    case 'within-percent':
      return { low: percentOf(100 - Number(band.percent), band.of), high: percentOf(100 + Number(band.percent), band.of) };
    case 'within':
      return { low: { op: '-', left: band.of, right: band.by, at: band.of.at }, high: { op: '+', left: band.of, right: band.by, at: band.of.at } };
    default:
      return {};
  }
}

const percentOf = (percent: number, of: Formula): Formula => ({ op: 'percent-of', percent: String(percent), of, at: of.at });

/** The interval [low, high) of a band that has edges; undefined for `open` and `otherwise`. */
export function bandInterval(band: Band, env: Environment): Interval | undefined {
  if (band.kind === 'open' || band.kind === 'otherwise') return undefined;
  const { low, high } = bandEdges(band);
  return { low: low ? evaluate(low, env) : Number.NEGATIVE_INFINITY, high: high ? evaluate(high, env) : Number.POSITIVE_INFINITY };
}

/** The first problem of names and dimensions in a band of a reading with this dimension. */
export function bandProblem(band: Band, dimension: Dimension, scope: FormulaScope): FormulaProblem | undefined {
  const check = (formula: Formula, wants: Dimension): FormulaProblem | undefined => {
    const got = dimensionOf(formula, scope);
    if (!got.ok) return got.problem;
    if (got.value === wants) return undefined;
    return { code: 'dimensions-differ', at: formula.at, operator: 'band', left: dimensionName(wants), right: dimensionName(got.value) };
  };
  switch (band.kind) {
    case 'below':
    case 'above':
      return check(band.edge, dimension);
    case 'range':
      return check(band.from, dimension) ?? check(band.to, dimension);
    case 'within-percent':
      if (dimension === TEMPERATURE) return { code: 'not-arithmetic', at: band.of.at, operator: '% of', got: dimensionName(dimension) };
      return check(band.of, dimension);
    case 'within':
      return check(band.by, dimension === TEMPERATURE ? TEMPERATURE_DIFFERENCE : dimension) ?? check(band.of, dimension);
    default:
      return undefined;
  }
}

/** What is wrong with one band's text as it stands on a reading of this dimension. */
export function checkedBand(text: string, dimension: Dimension, scope: FormulaScope): Result<Band, FormulaProblem> {
  const band = readBand(text);
  if (!band.ok) return band;
  const problem = bandProblem(band.value, dimension, scope);
  return problem ? failure(problem) : success(band.value);
}
