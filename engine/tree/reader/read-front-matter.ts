import type { z } from 'zod';
import type { Place } from '../../problem.ts';
import { QUANTITY_KIND_NAMES, quantityKind, readMeterAccuracy, showMeterAccuracy, USUAL_METER } from '../../quantity/index.ts';
import { didYouMean } from '../did-you-mean.ts';
import { quantityText } from '../quantity-text.ts';
import { stepId } from '../step-id.ts';
import type { FactSpec, Tree } from '../tree.ts';
import type { Expected, Report } from '../tree-problem.ts';
import { choiceFactInput, type FrontMatterInput, frontMatterSchema, quantityFactInput } from './front-matter-schema.ts';
import { oneLine } from './one-line.ts';
import type { ParsedDocument } from './parse-document.ts';
import type { SourceText } from './source-text.ts';
import { readYaml, type YamlValue } from './yaml-value.ts';

export type FrontMatter = {
  readonly values: Pick<Tree, 'title' | 'complaint' | 'benches' | 'facts' | 'settings' | 'meter'>;
  /** As written; it can only be read when the steps are known. */
  readonly recheck: string | undefined;
  readonly handoff: string | undefined;
  readonly places: ReadonlyMap<string, Place>;
  /** Facts and settings that are named but could not be read. */
  readonly doubtful: ReadonlySet<string>;
  /** False where there is none or its YAML cannot be read: then nothing is known of facts, settings and benches. */
  readonly readable: boolean;
};

const UNREAD: Pick<Tree, 'title' | 'complaint' | 'benches' | 'facts' | 'settings' | 'meter'> = {
  title: 'Untitled',
  complaint: 'Not given.',
  benches: [],
  facts: {},
  settings: {},
  meter: showMeterAccuracy(USUAL_METER),
};

export function readFrontMatter(written: ParsedDocument['frontMatter'], source: SourceText, report: Report): FrontMatter {
  const nothing = { values: UNREAD, recheck: undefined, handoff: undefined, places: new Map(), doubtful: new Set<string>(), readable: false };
  if (!written) return nothing;
  const { value, places } = readYaml(written.text, written.start, source, report);
  if (value === undefined) return nothing;
  const start = places.get('') ?? source.placeAt(0, 3);
  if (typeof value === 'string' || Array.isArray(value)) {
    report({ code: 'not-readable', what: 'front-matter-list', place: value === '' ? source.placeAt(0, 3) : start });
    return nothing;
  }
  const doubtful = new Set<string>();
  const input = soundPart(value as { readonly [key: string]: YamlValue }, places, source.placeAt(0, 3), doubtful, report);
  const facts: Record<string, FactSpec> = {};
  for (const [name, fact] of Object.entries(input.facts ?? {})) {
    const canonical = canonicalFact(name, fact, (key) => places.get(`facts.${name}.${key}`) ?? start, report);
    if (canonical) facts[name] = canonical;
    else doubtful.add(name);
  }
  return {
    values: {
      title: oneLine(input.title),
      complaint: oneLine(input.complaint),
      benches: input.benches ?? [],
      facts,
      settings: input.settings ?? {},
      meter: meterText(input.meter, places.get('meter') ?? start, report),
    },
    recheck: input.recheck === undefined ? undefined : oneLine(input.recheck),
    handoff: input.handoff === undefined ? undefined : stepId(input.handoff),
    places,
    doubtful,
    readable: true,
  };
}

type Input = { readonly [key: string]: YamlValue };

/** Reports every key that does not fit the schema, and returns the rest. */
function soundPart(input: Input, places: ReadonlyMap<string, Place>, whole: Place, doubtful: Set<string>, report: Report): FrontMatterInput {
  const first = frontMatterSchema.safeParse(input);
  if (first.success) return first.data;
  const kept: Record<string, YamlValue> = { ...input };
  for (const issue of first.error.issues.flatMap((i) => precise(i, input))) {
    reportIssue(issue, input, places, whole, report);
    const [key, entry] = issue.path;
    if (key === undefined) continue;
    const inner = kept[String(key)];
    if ((key === 'facts' || key === 'settings') && entry !== undefined && isMapValue(inner)) {
      doubtful.add(String(entry));
      kept[key] = Object.fromEntries(Object.entries(inner).filter(([name]) => name !== String(entry)));
    } else delete kept[String(key)];
  }
  const unknown = new Set(Object.keys(frontMatterSchema.shape));
  const sound = Object.fromEntries(Object.entries(kept).filter(([key]) => unknown.has(key)));
  const again = frontMatterSchema.safeParse({ title: UNREAD.title, complaint: UNREAD.complaint, ...sound });
  return again.success ? again.data : { title: UNREAD.title, complaint: UNREAD.complaint };
}

const isMapValue = (value: YamlValue | undefined): value is Input => typeof value === 'object' && !Array.isArray(value);

type Issue = z.core.$ZodIssue;

/** A fact that fits neither form is judged by the form it was meant to have. */
function precise(issue: Issue, input: Input): readonly Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const [key, name] = issue.path;
  const facts = input[String(key)];
  const fact = isMapValue(facts) ? facts[String(name)] : undefined;
  if (!isMapValue(fact)) return [issue];
  const form = Object.hasOwn(fact, 'choices') ? choiceFactInput : quantityFactInput;
  const read = form.safeParse(fact);
  return read.success ? [] : read.error.issues.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }));
}

function reportIssue(issue: Issue, input: Input, places: ReadonlyMap<string, Place>, whole: Place, report: Report): void {
  const path = issue.path.map(String);
  const key = path.join('.');
  const owner = ownerOf(path);
  if (issue.code === 'unrecognized_keys') {
    const known = path.length === 0 ? Object.keys(frontMatterSchema.shape) : Object.keys(quantityFactInput.shape).concat('choices');
    for (const name of issue.keys) {
      const place = places.get(key === '' ? `${name}#` : `${key}.${name}#`) ?? whole;
      report({
        code: 'unknown-attribute',
        owner: path.length === 0 ? 'the front matter' : `fact ${path[1]}`,
        name,
        known,
        suggestion: didYouMean(name, known),
        place,
      });
    }
    return;
  }
  const got = valueAt(input, path);
  const name = path.at(-1) ?? '';
  if (got === undefined) {
    const place = places.get(`${path.slice(0, -1).join('.')}#`) ?? whole;
    report({ code: 'bad-attribute', owner, name, fault: 'missing', expected: expectedAt(path, issue, undefined), place });
    return;
  }
  const place = places.get(issue.code === 'invalid_key' ? `${key}#` : key) ?? whole;
  const shown = issue.code === 'invalid_key' ? name : shownValue(got);
  report({ code: 'bad-attribute', owner, name, fault: 'wrong', got: shown, expected: expectedAt(path, issue, got), place });
}

const ownerOf = (path: readonly string[]): string =>
  path[0] === 'facts' && path.length > 2 ? `fact ${path[1]}` : path[0] === 'settings' && path.length > 2 ? `setting ${path[1]}` : 'the front matter';

function valueAt(value: YamlValue | undefined, path: readonly string[]): YamlValue | undefined {
  let at = value;
  for (const key of path) {
    if (typeof at !== 'object') return undefined;
    at = Object.hasOwn(at, key) ? (at as Input)[key] : undefined;
  }
  return at;
}

const shownValue = (value: YamlValue): string => (typeof value === 'string' ? value : Array.isArray(value) ? 'a list' : 'a map');

function expectedAt(path: readonly string[], issue: Issue, got: YamlValue | undefined): Expected {
  const [top, , inner] = path;
  if (issue.code === 'invalid_key') return { form: 'name' };
  if (top === 'benches') return { form: path.length === 1 ? 'list-of-names' : 'name' };
  if (top === 'handoff') return { form: 'name' };
  if (top === 'settings') return { form: path.length === 1 ? 'map' : path.length === 2 ? 'states' : 'name' };
  if (top !== 'facts') return { form: 'text' };
  if (path.length < 3) return { form: path.length === 1 ? 'map' : 'fact' };
  if (inner === 'quantity') {
    const suggestion = typeof got === 'string' ? didYouMean(got, QUANTITY_KIND_NAMES) : undefined;
    return { form: 'one-of', known: QUANTITY_KIND_NAMES, ...(suggestion !== undefined && { suggestion }) };
  }
  if (inner === 'choices') return { form: path.length === 3 ? 'choices' : 'name' };
  return { form: 'text' };
}

/** A fact with its quantities spelled out; undefined, and reported, where one is none. */
function canonicalFact(name: string, fact: FactSpec, place: (key: string) => Place, report: Report): FactSpec | undefined {
  const ask = oneLine(fact.ask);
  if ('choices' in fact) {
    const twice = fact.choices.find((choice, i) => fact.choices.indexOf(choice) !== i);
    if (twice !== undefined)
      report({
        code: 'bad-attribute',
        owner: `fact ${name}`,
        name: 'choices',
        fault: 'wrong',
        got: twice,
        expected: { form: 'choices' },
        place: place('choices'),
      });
    return { choices: fact.choices, ask, usual: fact.usual };
  }
  const read = { usual: fact.usual, from: fact.from, to: fact.to };
  let sound = true;
  for (const key of ['usual', 'from', 'to'] as const) {
    const value = quantityText(fact[key], fact.quantity);
    if (typeof value === 'object') {
      read[key] = value.text;
      continue;
    }
    sound = false;
    const { unit } = quantityKind(fact.quantity);
    if (value === 'wrong-unit') {
      report({ code: 'unit-mismatch', what: 'fact-value', fact: name, key, text: fact[key], kind: fact.quantity, example: unit, place: place(key) });
    } else
      report({
        code: 'bad-attribute',
        owner: `fact ${name}`,
        name: key,
        fault: 'wrong',
        got: fact[key],
        expected: { form: 'quantity', kind: fact.quantity },
        place: place(key),
      });
  }
  return sound ? { quantity: fact.quantity, ask, ...read } : undefined;
}

function meterText(written: string | undefined, place: Place, report: Report): string {
  if (written === undefined) return UNREAD.meter;
  const accuracy = readMeterAccuracy(written);
  const text = accuracy.ok ? showMeterAccuracy(accuracy.value) : undefined;
  // A number too large to be shown in plain digits would not read back.
  if (text !== undefined && readMeterAccuracy(text).ok) return text;
  report({ code: 'bad-attribute', owner: 'the front matter', name: 'meter', fault: 'wrong', got: written, expected: { form: 'meter' }, place });
  return UNREAD.meter;
}
