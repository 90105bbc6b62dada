import { compute, type FactBox, readFormula } from '../formula/index.ts';
import { readTypedValue } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import { type FactSpec, factUnit, isChoice } from '../tree/index.ts';
import type { Refusal } from './refusal.ts';
import type { FactState } from './walk-view.ts';

/** A fact that the tech told or a reading showed. */
export type KnownFact = { readonly typed: string; readonly si?: number; readonly source: 'told' | 'read' };

export type KnownFacts = Readonly<Record<string, KnownFact>>;

type Compiled = { readonly spec: FactSpec; readonly usual: number; readonly from: number; readonly to: number };

/** The facts that an edition asks of a site, by name, with their ranges in SI. */
export type SiteFacts = ReadonlyMap<string, Compiled>;

function si(text: string): number {
  const formula = readFormula(text);
  if (!formula.ok) return Number.NaN;
  const value = compute(formula.value, { value: () => undefined, functions: {} });
  return value.ok ? value.value : Number.NaN;
}

/** Gathers facts; the first that names a fact decides how it is asked. */
export function siteFacts(specs: readonly Readonly<Record<string, FactSpec>>[]): SiteFacts {
  const facts = new Map<string, Compiled>();
  for (const group of specs) {
    for (const [name, spec] of Object.entries(group)) {
      if (facts.has(name)) continue;
      if (isChoice(spec)) facts.set(name, { spec, usual: Number.NaN, from: Number.NaN, to: Number.NaN });
      else facts.set(name, { spec, usual: si(spec.usual), from: si(spec.from), to: si(spec.to) });
    }
  }
  return facts;
}

/** The value of a quantity fact on this site, SI: what is known, else the usual; undefined for no such fact. */
export function factValue(facts: SiteFacts, known: KnownFacts, name: string): number | undefined {
  const told = Object.hasOwn(known, name) ? known[name]?.si : undefined;
  return told ?? facts.get(name)?.usual;
}

/** The ranges of the quantity facts, for claims about every site. */
export function factBox(facts: SiteFacts): FactBox {
  const box: Record<string, { usual: number; from: number; to: number }> = {};
  for (const [name, { spec, usual, from, to }] of facts) if (!isChoice(spec)) box[name] = { usual, from, to };
  return box;
}

/** Reads what a tech typed for a fact. */
export function readFact(facts: SiteFacts, name: string, typed: string, source: 'told' | 'read'): Result<KnownFact, Refusal> {
  const fact = facts.get(name);
  if (!fact) return failure({ code: 'unknown-fact', fact: name, known: [...facts.keys()] });
  if (isChoice(fact.spec)) {
    const choice = typed.trim();
    if (!fact.spec.choices.includes(choice)) return failure({ code: 'unknown-choice', fact: name, got: typed, known: fact.spec.choices });
    return success({ typed: choice, source });
  }
  const value = readTypedValue(typed, fact.spec.quantity, factUnit(fact.spec));
  if (!value.ok) return failure({ code: 'not-readable', problem: value.problem });
  if (value.value.si === 'open') return failure({ code: 'not-readable', problem: { code: 'not-a-number', typed } });
  return success({ typed, si: value.value.si, source });
}

/** The facts as they stand, for showing. */
export function factStates(facts: SiteFacts, known: KnownFacts): readonly FactState[] {
  return [...facts].map(([name, { spec, from, to }]) => {
    const told = Object.hasOwn(known, name) ? known[name] : undefined;
    if (!told) return { name, spec, text: spec.usual, source: 'usual', outside: false };
    const outside = told.si !== undefined && (told.si < from || told.si > to);
    return { name, spec, text: withUnit(told, spec), source: told.source, outside };
  });
}

function withUnit(known: KnownFact, spec: FactSpec): string {
  if (isChoice(spec)) return known.typed;
  const unit = factUnit(spec);
  // A bare number was typed in the usual unit; say so.
  return /^[\d.+-]+$/.test(known.typed.trim()) && unit ? `${known.typed.trim()} ${unit}` : known.typed.trim();
}
