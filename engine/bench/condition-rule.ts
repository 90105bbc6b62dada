import { type Condition, type Formula, readCondition, readFormula } from '../formula/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import type { BenchIndex } from './bench-index.ts';
import type { CircuitView, Rule } from './circuit-builder.ts';

type Value = (view: CircuitView) => number;

/** Formulas and conditions of a checked bench as functions of a solved circuit, each compiled once. */
export class Rules {
  private readonly factNumber: ReadonlyMap<string, number>;
  private readonly settingNumber: ReadonlyMap<string, number>;
  private readonly signs = new Map<string, Rule>();

  constructor(private readonly index: BenchIndex) {
    this.factNumber = new Map(index.facts.map(({ name }, i) => [name, i]));
    this.settingNumber = new Map(index.settings.map(({ name }, i) => [name, i]));
  }

  /** A condition's text; one that cannot be read never holds, which the check has told. */
  condition(text: string): Rule {
    const condition = readCondition(text);
    return condition.ok ? this.rule(condition.value) : () => false;
  }

  /** A value's text: facts in, SI out, NaN where it has no answer. */
  value(text: string): Value {
    const formula = readFormula(text);
    return formula.ok ? this.formula(formula.value) : () => Number.NaN;
  }

  sign(name: string): Rule {
    let rule = this.signs.get(name);
    if (!rule) {
      // Set before it is compiled: signs that name each other would otherwise recurse for ever.
      this.signs.set(name, () => false);
      rule = this.condition(this.index.bench.signs[name] ?? '');
      this.signs.set(name, rule);
    }
    return rule;
  }

  private rule(condition: Condition): Rule {
    switch (condition.op) {
      case 'and': {
        const terms = condition.terms.map((term) => this.rule(term));
        return (view) => terms.every((term) => term(view));
      }
      case 'or': {
        const terms = condition.terms.map((term) => this.rule(term));
        return (view) => terms.some((term) => term(view));
      }
      case 'not': {
        const term = this.rule(condition.term);
        return (view) => !term(view);
      }
      case 'is':
        return this.is(condition.name, condition.state);
      case 'above': {
        const [left, right] = [this.formula(condition.left), this.formula(condition.right)];
        return (view) => left(view) > right(view);
      }
      case 'below': {
        const [left, right] = [this.formula(condition.left), this.formula(condition.right)];
        return (view) => left(view) < right(view);
      }
    }
  }

  private is(name: string, state: string): Rule {
    const wanted = this.index.states.get(name)?.indexOf(state) ?? -1;
    const setting = this.settingNumber.get(name);
    if (setting !== undefined) return (view) => view.setting(setting) === wanted;
    const part = this.index.partNumber.get(name);
    if (part !== undefined) return (view) => view.state(part) === wanted;
    const sign = this.sign(name);
    return (view) => Number(sign(view)) === wanted;
  }

  private formula(formula: Formula): Value {
    switch (formula.op) {
      case 'literal': {
        const { si } = formula;
        return () => si;
      }
      case 'name': {
        const fact = this.factNumber.get(formula.name);
        return fact === undefined ? () => Number.NaN : (view) => view.fact(fact);
      }
      case 'negate': {
        const of = this.formula(formula.of);
        return (view) => -of(view);
      }
      case 'percent-of': {
        const of = this.formula(formula.of);
        const share = Number(formula.percent) / 100;
        return (view) => share * of(view);
      }
      case 'call':
        return this.call(formula.name, formula.args);
      default: {
        const [left, right] = [this.formula(formula.left), this.formula(formula.right)];
        switch (formula.op) {
          case '+':
            return (view) => left(view) + right(view);
          case '-':
            return (view) => left(view) - right(view);
          case '*':
            return (view) => left(view) * right(view);
          case '/':
            return (view) => left(view) / right(view);
        }
      }
    }
  }

  private call(name: string, args: readonly Formula[]): Value {
    const words = args.map((arg) => (arg.op === 'name' ? arg.name : ''));
    const [first = '', second = ''] = words;
    if (name === 'volts' || name === 'dc-volts') {
      const a = this.index.nodeNumber.get(first) ?? -1;
      const b = this.index.nodeNumber.get(second) ?? -1;
      return name === 'volts' ? (view) => view.volts(a, b) : (view) => view.dcVolts(a, b);
    }
    if (name === 'amps' || name === 'dc-amps') {
      const part = this.index.partNumber.get(first) ?? -1;
      return name === 'amps' ? (view) => view.amps(part) : (view) => view.dcAmps(part);
    }
    const fn = Object.entries(TRADE_FUNCTIONS).find(([known]) => known === name)?.[1];
    if (!fn) return () => Number.NaN;
    const values = args.map((arg, i) => (fn.parameters[i]?.takes === 'quantity' ? this.formula(arg) : undefined));
    return (view) => {
      const result = fn.compute(values.map((value, i) => (value ? value(view) : (words[i] ?? ''))));
      return result.ok ? result.value : Number.NaN;
    };
  }
}
