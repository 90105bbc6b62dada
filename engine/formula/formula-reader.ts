import { DIMENSIONS, toSi, unitOf } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import type { BinaryOperator, Condition, Formula, FormulaProblem, Span } from './formula.ts';
import { type Token, tokensOf } from './tokens.ts';

/** Thrown inside the reader only; every exported function catches it and returns it as data. */
class Unreadable {
  constructor(readonly problem: FormulaProblem) {}
}

// Deep enough for any formula that a person writes, shallow enough that hostile nesting cannot exhaust the stack.
const MAX_DEPTH = 60;
const MAX_LENGTH = 2000;
const UNITLESS = DIMENSIONS.number;

const spanning = (a: { at: Span }, b: { at: Span }): Span => [a.at[0], b.at[1]];

/** A cursor over tokens with the grammar of formulas, conditions and (in band-reader) bands. */
export class FormulaCursor {
  private position = 0;
  private depth = 0;

  constructor(
    private readonly text: string,
    private readonly tokens: readonly Token[],
  ) {}

  get next(): Token {
    return this.tokens[Math.min(this.position, this.tokens.length - 1)] ?? { type: 'end', at: [this.text.length, this.text.length] };
  }

  take(): Token {
    const token = this.next;
    this.position += 1;
    return token;
  }

  /** Takes the next token if it is this word or mark. */
  accept(text: string): boolean {
    const { next } = this;
    if (next.type === 'end' || next.type === 'number' || next.text !== text) return false;
    this.position += 1;
    return true;
  }

  expect(text: string): void {
    if (!this.accept(text)) this.fail(`“${text}”`);
  }

  fail(expected: string): never {
    const { next } = this;
    const found = next.type === 'end' ? 'the end' : this.text.slice(next.at[0], next.at[1]);
    throw new Unreadable({ code: 'cannot-read', at: next.at, found, expected });
  }

  private nested<T>(read: () => T): T {
    this.depth += 1;
    if (this.depth > MAX_DEPTH) this.fail('a formula that is not nested so deeply');
    const value = read();
    this.depth -= 1;
    return value;
  }

  formula(): Formula {
    return this.nested(() => this.chain(['+', '-'], () => this.chain(['*', '/'], () => this.factor())));
  }

  private chain(operators: readonly BinaryOperator[], operand: () => Formula): Formula {
    let left = operand();
    for (;;) {
      const operator = operators.find((o) => this.accept(o));
      if (!operator) return left;
      let right = operand();
      // 'outdoor + 5 °F': what is added to a temperature is a difference, never a second temperature.
      if (operator === '+' || operator === '-') right = asDifference(right);
      left = { op: operator, left, right, at: spanning(left, right) };
    }
  }

  private factor(): Formula {
    const { next } = this;
    if (this.accept('-')) {
      const of = this.nested(() => this.factor());
      return of.op === 'literal' ? negated(of, next.at[0]) : { op: 'negate', of, at: [next.at[0], of.at[1]] };
    }
    if (this.accept('(')) {
      const inner = this.formula();
      this.expect(')');
      return inner;
    }
    if (next.type === 'number') return this.literal(next);
    if (next.type === 'name') {
      this.take();
      return this.accept('(') ? this.call(next.text, next.at[0]) : { op: 'name', name: next.text, at: next.at };
    }
    return this.fail('a number with a unit, a fact or “(”');
  }

  private literal(token: Token & { type: 'number' }): Formula {
    this.take();
    if (token.unit?.symbol === '%' && this.accept('of')) {
      const of = this.nested(() => this.factor());
      return { op: 'percent-of', percent: token.written, of, at: [token.at[0], of.at[1]] };
    }
    const si = token.unit ? toSi(Number(token.written), token.unit) : Number(token.written);
    if (!Number.isFinite(si))
      throw new Unreadable({ code: 'cannot-read', at: token.at, found: token.written, expected: 'a number of a possible size' });
    return { op: 'literal', si, written: token.written, unit: token.unit?.symbol ?? '', dimension: token.unit?.dimension ?? UNITLESS, at: token.at };
  }

  private call(name: string, start: number): Formula {
    const args: Formula[] = [];
    if (!this.accept(')')) {
      do args.push(this.formula());
      while (this.accept(','));
      this.expect(')');
    }
    return { op: 'call', name, args, at: [start, this.tokens[this.position - 1]?.at[1] ?? start] };
  }

  condition(): Condition {
    return this.nested(() => this.joined('or', () => this.joined('and', () => this.negatable())));
  }

  private joined(op: 'and' | 'or', term: () => Condition): Condition {
    const first = term();
    const terms = [first];
    while (this.accept(op)) terms.push(term());
    const last = terms.at(-1) ?? first;
    return terms.length === 1 ? first : { op, terms, at: spanning(first, last) };
  }

  private negatable(): Condition {
    const start = this.next.at[0];
    if (this.accept('not')) {
      const term = this.nested(() => this.negatable());
      return { op: 'not', term, at: [start, term.at[1]] };
    }
    if (this.next.type === 'mark' && this.next.text === '(') {
      // '(' opens a condition or a formula; try the condition, which is the common case.
      const mark = this.position;
      const { depth } = this;
      try {
        this.take();
        const inner = this.condition();
        this.expect(')');
        if (!this.goesOnAsFormula()) return inner;
      } catch (error) {
        if (!(error instanceof Unreadable)) throw error;
      }
      this.position = mark;
      this.depth = depth;
    }
    return this.comparison();
  }

  // '(a) above b' and '(a) + b below c' bracket a formula, not a condition.
  private goesOnAsFormula(): boolean {
    return this.isWord('above') || this.isWord('below') || (this.next.type === 'mark' && '+-*/'.includes(this.next.text));
  }

  private isWord(text: string): boolean {
    return this.next.type === 'name' && this.next.text === text;
  }

  private comparison(): Condition {
    const left = this.formula();
    if (left.op === 'name' && this.accept('is')) {
      const negative = this.accept('not');
      const state = this.take();
      if (state.type !== 'name') {
        this.position -= 1;
        return this.fail('a state, such as “on”');
      }
      const is: Condition = { op: 'is', name: left.name, state: state.text, at: [left.at[0], state.at[1]] };
      return negative ? { op: 'not', term: is, at: is.at } : is;
    }
    const op = this.accept('above') ? 'above' : this.accept('below') ? 'below' : this.fail('“is”, “above” or “below”');
    const right = this.formula();
    return { op, left, right, at: spanning(left, right) };
  }
}

function asDifference(formula: Formula): Formula {
  if (formula.op !== 'literal') return formula;
  const difference = formula.unit === '°F' ? unitOf('F°') : formula.unit === '°C' ? unitOf('C°') : undefined;
  if (!difference) return formula;
  return { ...formula, si: toSi(Number(formula.written), difference), unit: difference.symbol, dimension: difference.dimension };
}

function negated(literal: Formula & { op: 'literal' }, start: number): Formula {
  const unit = unitOf(literal.unit);
  const written = literal.written.startsWith('-') ? literal.written.slice(1) : `-${literal.written}`;
  return { ...literal, written, si: unit ? toSi(Number(written), unit) : Number(written), at: [start, literal.at[1]] };
}

/** Runs a reading function over the whole text; anything left over is a problem. */
export function readWhole<T>(text: string, read: (cursor: FormulaCursor) => T): Result<T, FormulaProblem> {
  if (text.length > MAX_LENGTH)
    return failure({ code: 'cannot-read', at: [0, text.length], found: 'a very long text', expected: `at most ${MAX_LENGTH} characters` });
  const tokens = tokensOf(text);
  if (!tokens.ok) return tokens;
  const cursor = new FormulaCursor(text, tokens.value);
  try {
    const value = read(cursor);
    if (cursor.next.type !== 'end') cursor.fail('nothing more');
    return success(value);
  } catch (error) {
    if (error instanceof Unreadable) return failure(error.problem);
    throw error;
  }
}

/** Reads a formula such as `85 % of coil-rated` or `ntc(10 kohm, type-2, outdoor)`. */
export const readFormula = (text: string): Result<Formula, FormulaProblem> => readWhole(text, (c) => c.formula());

/** Reads a condition such as `heat-call is on and volts(R, C) above 18 V`. */
export const readCondition = (text: string): Result<Condition, FormulaProblem> => readWhole(text, (c) => c.condition());

/** What an added literal in °F or °C means: a difference. Used where a tolerance stands. */
export const toleranceOf = asDifference;
