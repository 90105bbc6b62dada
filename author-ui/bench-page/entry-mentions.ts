import { type Bench, FAULT_MODES } from '../../engine/bench/index.ts';
import { type Condition, type Formula, readCondition, readFormula } from '../../engine/formula/index.ts';
import type { BenchSection } from './bench-edits.ts';

/** What can be renamed in a bench. */
export type Renamable = BenchSection | 'terminals';

/** One name for another. */
export type Rename = { readonly section: Renamable; readonly from: string; readonly to: string };

export type LeafPath = readonly (string | number)[];

/** A text of a bench file that a rename changes. */
export type LeafChange = { readonly path: LeafPath; readonly before: string; readonly text: string };

/** Every text of a bench that mentions a name and what it becomes; the entry's own key is not among them. */
export function mentionsIn(bench: Bench, rename: Rename): readonly LeafChange[] {
  const changes: LeafChange[] = [];
  const look = (path: LeafPath, value: unknown, renamed: (text: string) => string): void => {
    if (Array.isArray(value)) for (const [index, item] of value.entries()) look([...path, index], item, renamed);
    else if (typeof value === 'string' && renamed(value) !== value) changes.push({ path, before: value, text: renamed(value) });
  };
  look(['terminals'], bench.terminals, (text) => inNode(text, rename));
  for (const [name, text] of Object.entries(bench.signs)) look(['signs', name], text, (one) => inCondition(one, rename));
  for (const [name, { part, becomes }] of Object.entries(bench.faults)) {
    look(['faults', name, 'part'], part, (text) => inReference(text, rename, ['parts']));
    look(['faults', name, 'becomes'], becomes, (text) => inBecoming(text, rename));
  }
  for (const [name, part] of Object.entries(bench.parts)) {
    for (const [field, value] of Object.entries(part)) {
      if (field === 'stages') {
        for (const [stage, ways] of Object.entries(value as Readonly<Record<string, Readonly<Record<string, string>>>>))
          for (const [to, when] of Object.entries(ways)) look(['parts', name, field, stage, to], when, (text) => inCondition(text, rename));
      } else look(['parts', name, field], value, (text) => inField(part.kind, field, text, rename));
    }
  }
  return changes;
}

const PLAIN = new Set(['kind', 'label', 'curve', 'reads', 'or']);
const NODES = new Set(['between', 'primary', 'secondary']);
const CONDITIONS = new Set(['when', 'closed-when', 'lit-when', 'while']);

function inField(kind: string, field: string, text: string, rename: Rename): string {
  if (PLAIN.has(field) || (kind === 'state' && field === 'is')) return text;
  if (NODES.has(field)) return inNode(text, rename);
  if (CONDITIONS.has(field)) return inCondition(text, rename);
  if (field === 'safety') return inReference(text, rename, ['parts', 'signs']);
  // `coil-hot on V1`
  if (field === 'lead') return text.replace(/( on )(\S+)$/, (_, on: string, node: string) => on + inNode(node, rename));
  // `30 pF/ft to R`
  if (field === 'stray')
    return text.replace(/^(.*?)( to )(\S+)$/s, (_, value: string, to: string, node: string) => inFormula(value, rename) + to + inNode(node, rename));
  // `120 V to 24 V`
  return text
    .split(/( to )/)
    .map((piece) => (piece === ' to ' ? piece : inFormula(piece, rename)))
    .join('');
}

const inNode = (text: string, { section, from, to }: Rename): string => (section === 'terminals' && text === from ? to : text);

const inReference = (text: string, { section, from, to }: Rename, sections: readonly Renamable[]): string =>
  sections.includes(section) && text === from ? to : text;

function inBecoming(text: string, rename: Rename): string {
  const modes: readonly string[] = FAULT_MODES;
  if (modes.includes(text.trim())) return text;
  const link = /^(\s*to\s+)(\S+)(\s*)$/.exec(text);
  if (link) return `${link[1]}${inNode(link[2] ?? '', rename)}${link[3]}`;
  const move = /^(\s*moved\s+from\s+)(\S+)(\s+to\s+)(\S+)(\s*)$/.exec(text);
  if (move) return `${move[1]}${inNode(move[2] ?? '', rename)}${move[3]}${inNode(move[4] ?? '', rename)}${move[5]}`;
  // A single word is a state of the part's own.
  return /^\s*[a-z0-9]+(-[a-z0-9]+)*\s*$/.test(text) ? text : inFormula(text, rename);
}

type At = readonly [start: number, end: number];

/** Functions that take points of the circuit, and those that take a part. */
const OF_NODES = new Set(['volts', 'dc-volts']);
const OF_PARTS = new Set(['amps', 'dc-amps']);

function inCondition(text: string, rename: Rename): string {
  const read = readCondition(text);
  return read.ok ? spliced(text, placesInCondition(read.value, rename), rename.to) : text;
}

/** A formula with one name for another; as it is where it cannot be read. */
export function inFormula(text: string, rename: Rename): string {
  const read = readFormula(text);
  return read.ok ? spliced(text, placesInFormula(read.value, rename), rename.to) : text;
}

function placesInCondition(condition: Condition, rename: Rename): readonly At[] {
  switch (condition.op) {
    case 'and':
    case 'or':
      return condition.terms.flatMap((term) => placesInCondition(term, rename));
    case 'not':
      return placesInCondition(condition.term, rename);
    case 'is':
      return ['parts', 'settings', 'signs'].includes(rename.section) && condition.name === rename.from
        ? [[condition.at[0], condition.at[0] + rename.from.length]]
        : [];
    default:
      return [...placesInFormula(condition.left, rename), ...placesInFormula(condition.right, rename)];
  }
}

function placesInFormula(formula: Formula, rename: Rename): readonly At[] {
  switch (formula.op) {
    case 'literal':
      return [];
    case 'name':
      return rename.section === 'facts' && formula.name === rename.from ? [formula.at] : [];
    case 'call': {
      const takes = OF_NODES.has(formula.name) ? 'terminals' : OF_PARTS.has(formula.name) ? 'parts' : undefined;
      if (takes === undefined) return formula.args.flatMap((arg) => placesInFormula(arg, rename));
      return formula.args.flatMap((arg) => (takes === rename.section && arg.op === 'name' && arg.name === rename.from ? [arg.at] : []));
    }
    case 'negate':
    case 'percent-of':
      return placesInFormula(formula.of, rename);
    default:
      return [...placesInFormula(formula.left, rename), ...placesInFormula(formula.right, rename)];
  }
}

const spliced = (text: string, places: readonly At[], by: string): string =>
  [...places].sort(([a], [b]) => b - a).reduce((now, [start, end]) => now.slice(0, start) + by + now.slice(end), text);
