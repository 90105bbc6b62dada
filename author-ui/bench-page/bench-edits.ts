import { Document, visit } from 'yaml';
import { type Bench, readBench } from '../../engine/bench/index.ts';
import type { Place } from '../../engine/problem.ts';
import type { LeafChange } from './entry-mentions.ts';

/** Parts of a bench file that hold entries by name. */
export type BenchSection = 'settings' | 'facts' | 'parts' | 'signs' | 'faults';

/** What an entry is: a text (sign), a list (setting), or fields. */
export type EntryValue = string | readonly string[] | Readonly<Record<string, unknown>>;

type Path = readonly (string | number)[];
type Span = { readonly start: number; readonly end: number };

/**
 * A bench file as text that can be changed entry by entry. Only the lines of what is changed are written anew: comments, order and the
 * writing of everything else stay as they are. Undefined where the text is not of the form of a bench.
 */
export function editableBench(text: string): EditableBench | undefined {
  const { bench, places } = readBench(text, { file: '' });
  return bench && new EditableBench(text, bench, places);
}

export class EditableBench {
  readonly #lines: readonly number[];

  constructor(
    readonly text: string,
    readonly bench: Bench,
    readonly places: (path: Path, options?: { readonly key?: boolean }) => Place,
  ) {
    const lines = [0];
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines.push(at + 1);
    this.#lines = lines;
  }

  /** Sets `title`, `about`, `frequency` or `terminals`; undefined takes it out. */
  withTop(key: string, value: string | readonly string[] | undefined): string {
    const at = this.#key([key]);
    if (at && value === undefined) return this.#withoutLines(at.start, this.#value([key]).end);
    if (at) return this.#splice(this.#value([key]), written(value, false));
    if (value === undefined) return this.text;
    const first = this.#key(['terminals']) ?? this.#key(['parts']);
    const start = first ? this.#lineStart(first.start) : this.text.length;
    return this.#splice({ start, end: start }, `${key}: ${written(value, false)}\n`);
  }

  /** Adds an entry, or changes the fields of one that differ from what it is. */
  withEntry(section: BenchSection, name: string, value: EntryValue): string {
    if (!this.#key([section, name])) return this.#withNew(section, name, value);
    const before: unknown = this.bench[section][name];
    if (JSON.stringify(before) === JSON.stringify(value)) return this.text;
    const span = this.#value([section, name]);
    if (typeof value === 'string' || Array.isArray(value) || !isRecord(value) || !isRecord(before)) {
      return this.#splice(span, written(value, this.#isFlow([section])));
    }
    const whole = (): string => this.#splice(span, written(definedOf(value), this.#isFlow([section])));
    if (value.kind !== before.kind) return whole();
    let result = this.text;
    for (const [field, wanted] of Object.entries(value)) {
      if (wanted === undefined || JSON.stringify(wanted) === JSON.stringify(before[field])) continue;
      result = editableBench(result)?.withField(section, name, field, wanted) ?? result;
    }
    for (const field of Object.keys(before)) {
      if (value[field] === undefined) result = editableBench(result)?.withoutField(section, name, field) ?? result;
    }
    // Field by field the text may pass through what is no bench; then the entry is written as one.
    const now: unknown = editableBench(result)?.bench[section][name];
    return sameFields(now, value) ? result : whole();
  }

  /** Takes an entry out; with the last one goes the section. */
  withoutEntry(section: BenchSection, name: string): string {
    const at = this.#key([section, name]);
    if (!at) return this.text;
    const left = Object.keys(this.bench[section]).filter((other) => other !== name);
    const key = this.#key([section]);
    if (left.length === 0 && key) {
      if (section === 'parts') return this.#splice({ start: key.end, end: this.#value([section]).end }, ': {}');
      return this.#withoutLines(key.start, this.#value([section]).end);
    }
    if (this.#isFlow([section])) return this.#withoutFlowItem([section], name, Object.keys(this.bench[section]));
    return this.#withoutLines(at.start, this.#value([section, name]).end);
  }

  /** The lines of an entry, from its first to the one after its last; undefined where it is not in the file. */
  linesOf(section: BenchSection, name: string): { readonly from: number; readonly end: number } | undefined {
    if (!this.#key([section, name])) return undefined;
    const from = this.places([section, name], { key: true }).line;
    const lineOf = (at: number): number => this.#lines.findLastIndex((start) => start <= at) + 1;
    return { from, end: lineOf(this.#value([section, name]).end) + 1 };
  }

  /** The entry that a line belongs to. */
  entryAt(line: number): { readonly section: BenchSection; readonly name: string } | undefined {
    for (const section of ['settings', 'facts', 'parts', 'signs', 'faults'] as const) {
      for (const name of Object.keys(this.bench[section])) {
        const lines = this.linesOf(section, name);
        if (lines && lines.from <= line && line < lines.end) return { section, name };
      }
    }
    return undefined;
  }

  /** Writes several texts anew where they stand, and gives one key another name. A text keeps its own quotes where it can. */
  withRenamed(leaves: readonly LeafChange[], key: Path | undefined, to: string): string {
    const at = key && this.#key(key);
    const splices = leaves.map(({ path, before, text }) => {
      const span = this.#value(path);
      const raw = this.text.slice(span.start, span.end);
      return { ...span, by: raw.includes(before) ? raw.replace(before, () => text) : written(text, this.#standsInFlow(path)) };
    });
    return [...splices, ...(at ? [{ ...at, by: to }] : [])]
      .sort((a, b) => b.start - a.start)
      .reduce((text, { start, end, by }) => text.slice(0, start) + by + text.slice(end), this.text);
  }

  /** Whether a value stands inside braces or brackets, where a comma would end it. */
  #standsInFlow(path: readonly (string | number)[]): boolean {
    return path.some((_, length) => ['{', '['].includes(this.text[this.#value(path.slice(0, length)).start] ?? '') && length > 0);
  }

  #withNew(section: BenchSection, name: string, value: EntryValue): string {
    const key = this.#key([section]);
    if (!key) return `${this.text.replace(/\s*$/, '')}\n\n${section}:\n  ${name}: ${written(value, false)}\n`;
    const ends = Object.keys(this.bench[section]).flatMap((other) => (this.#key([section, other]) ? [this.#value([section, other]).end] : []));
    if (ends.length === 0) return this.#splice({ start: key.end, end: this.#value([section]).end }, `:\n  ${name}: ${written(value, false)}`);
    const last = Math.max(...ends);
    if (this.#isFlow([section])) return this.#splice({ start: last, end: last }, `, ${name}: ${written(value, true)}`);
    const first = Math.min(...Object.keys(this.bench[section]).flatMap((other) => this.#key([section, other])?.start ?? []));
    const indent = ' '.repeat(first - this.#lineStart(first));
    const end = this.#lineEnd(last);
    return this.#splice({ start: end, end }, `\n${indent}${name}: ${written(value, false)}`);
  }

  /** Sets one field of an entry that is a map. */
  withField(section: BenchSection, name: string, field: string, value: unknown): string {
    const flow = this.#isFlow([section, name]);
    if (this.#key([section, name, field])) return this.#splice(this.#value([section, name, field]), written(value, flow));
    const fields = this.#fieldsOf(section, name);
    const last = fields.at(-1);
    const first = fields[0];
    if (last === undefined || first === undefined) return this.#splice(this.#value([section, name]), `{ ${field}: ${written(value, true)} }`);
    const end = this.#value([section, name, last]).end;
    if (flow) return this.#splice({ start: end, end }, `, ${field}: ${written(value, true)}`);
    const start = this.#key([section, name, first])?.start ?? 0;
    const lineEnd = this.#lineEnd(end);
    return this.#splice({ start: lineEnd, end: lineEnd }, `\n${' '.repeat(start - this.#lineStart(start))}${field}: ${written(value, false)}`);
  }

  /** Takes one field of an entry out. */
  withoutField(section: BenchSection, name: string, field: string): string {
    const at = this.#key([section, name, field]);
    if (!at) return this.text;
    if (this.#isFlow([section, name])) return this.#withoutFlowItem([section, name], field, this.#fieldsOf(section, name));
    return this.#withoutLines(at.start, this.#value([section, name, field]).end);
  }

  #withoutFlowItem(path: Path, name: string, names: readonly string[]): string {
    const at = this.#key([...path, name]);
    const place = names.indexOf(name);
    const [before, after] = [names[place - 1], names[place + 1]];
    const end = this.#value([...path, name]).end;
    if (before !== undefined) return this.#splice({ start: this.#value([...path, before]).end, end }, '');
    const next = after === undefined ? undefined : this.#key([...path, after]);
    return this.#splice({ start: at?.start ?? end, end: next?.start ?? end }, '');
  }

  /** In the order of the file. */
  #fieldsOf(section: BenchSection, name: string): readonly string[] {
    const entry: unknown = this.bench[section][name];
    if (!isRecord(entry)) return [];
    return Object.keys(entry)
      .flatMap((field) => {
        const at = this.#key([section, name, field]);
        return at ? [{ field, start: at.start }] : [];
      })
      .sort((a, b) => a.start - b.start)
      .map(({ field }) => field);
  }

  #isFlow(path: Path): boolean {
    return this.text[this.#value(path).start] === '{';
  }

  /** Where a key stands; undefined where it is not in the file. */
  #key(path: Path): Span | undefined {
    const span = this.#span(this.places(path, { key: true }));
    const last = path.at(-1) ?? '';
    const found = this.text.slice(span.start, span.end).replace(/^['"]|['"]$/g, '');
    const holder = this.#span(this.places(path.slice(0, -1), { key: true }));
    return found === last && (span.start !== holder.start || path.length === 1) ? span : undefined;
  }

  #value(path: Path): Span {
    const { start, end } = this.#span(this.places(path));
    return { start, end: start + this.text.slice(start, end).trimEnd().length };
  }

  #span({ line, column, endLine, endColumn }: Place): Span {
    const at = (l: number, c: number): number => (this.#lines[l - 1] ?? this.text.length) + c - 1;
    return { start: at(line, column), end: at(endLine ?? line, endColumn ?? column) };
  }

  #lineStart(at: number): number {
    return this.text.lastIndexOf('\n', at - 1) + 1;
  }

  #lineEnd(at: number): number {
    const end = this.text.indexOf('\n', at);
    return end < 0 ? this.text.length : end;
  }

  #withoutLines(start: number, end: number): string {
    return this.#splice({ start: this.#lineStart(start), end: Math.min(this.text.length, this.#lineEnd(end) + 1) }, '');
  }

  #splice({ start, end }: Span, by: string): string {
    return this.text.slice(0, start) + by + this.text.slice(end);
  }
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null && !Array.isArray(value);

const definedOf = (value: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> =>
  Object.fromEntries(Object.entries(value).filter(([, field]) => field !== undefined));

function sameFields(now: unknown, wanted: Readonly<Record<string, unknown>>): boolean {
  const ordered = (value: Readonly<Record<string, unknown>>): string =>
    JSON.stringify(Object.entries(definedOf(value)).sort(([a], [b]) => (a < b ? -1 : 1)));
  return isRecord(now) && ordered(now) === ordered(wanted);
}

/** A value as one line of YAML; `inFlow`: to stand inside braces. */
function written(value: unknown, inFlow: boolean): string {
  const document = new Document({ value });
  visit(document, {
    Collection(_key, node) {
      if (node !== document.contents || inFlow) node.flow = true;
    },
  });
  const text = document.toString({ lineWidth: 0, flowCollectionPadding: true }).trimEnd();
  const bare = inFlow ? text.replace(/^\{\s*value: /, '').replace(/\s*\}$/, '') : text.replace(/^value: /, '');
  return bare.replaceAll('[ ', '[').replaceAll(' ]', ']');
}
