import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readBench } from '../../engine/bench/index.ts';
import { type BenchSection, type EditableBench, type EntryValue, editableBench } from './bench-edits.ts';

const FOLDER = new URL('../../trees/benches/', import.meta.url);
const SHIPPED = readdirSync(FOLDER).filter((file) => file.endsWith('.bench.yaml'));
const textOf = (file: string): string => readFileSync(new URL(file, FOLDER), 'utf8');

function editable(text: string): EditableBench {
  const found = editableBench(text);
  if (!found) throw new Error(readBench(text, { file: 'x' }).problems[0]?.message ?? 'not a bench');
  return found;
}

/** Lines of `after` that are not the line of `before` at their place, where the two have as many lines. */
function changedLines(before: string, after: string): readonly string[] {
  const old = before.split('\n');
  return after.split('\n').filter((line, index) => line !== old[index]);
}

const SMALL = `title: Small # as drawn
terminals: [R, C]
parts:
  # the coil
  coil: { kind: coil, between: [R, C], rated: 24 V, va: 10 VA, resistance: 30 ohm } # of the valve
  feed:
    kind: load
    between: [R, C]
    ohms: 600 ohm # by hand
    when: 'volts(R, C) above 18 V'
faults:
  coil-open: { part: coil, becomes: open }
`;

test('one field of an entry changes its own line and nothing else, its comment included', () => {
  const coil = editable(SMALL).bench.parts.coil;
  const after = editable(SMALL).withEntry('parts', 'coil', { ...coil, resistance: '28 ohm', 'pulls-in': '85 %' } as EntryValue);
  expect(changedLines(SMALL, after)).toEqual([
    '  coil: { kind: coil, between: [R, C], rated: 24 V, va: 10 VA, resistance: 28 ohm, pulls-in: 85 % } # of the valve',
  ]);
  const feed = editable(SMALL).withEntry('parts', 'feed', { kind: 'load', between: ['R', 'C'], ohms: '500 ohm' });
  expect(feed).toBe(SMALL.replace('600 ohm', '500 ohm').replace("    when: 'volts(R, C) above 18 V'\n", ''));
});

test('a part of another kind is written as one', () => {
  const contact = { kind: 'contact', between: ['R', 'C'], 'closed-when': 'volts(R, C) above 18 V' };
  const after = editable(SMALL).withEntry('parts', 'coil', contact);
  expect(editable(after).bench.parts.coil).toEqual(contact);
  expect(after).toContain('# the coil\n  coil: { kind: contact');
  const load = editable(SMALL).withEntry('parts', 'feed', { kind: 'load', between: ['R', 'C'], va: '10 VA', rated: '24 V' });
  expect(editable(load).bench.parts.feed).toEqual({ kind: 'load', between: ['R', 'C'], va: '10 VA', rated: '24 V' });
});

test('an entry is added after the last of its section, and taken out again without a trace', () => {
  const added = editable(SMALL).withEntry('faults', 'feed-weak', { part: 'feed', becomes: '900 ohm', weight: 2 });
  expect(added).toBe(`${SMALL.trimEnd()}\n  feed-weak: { part: feed, becomes: 900 ohm, weight: 2 }\n`);
  expect(editable(added).withoutEntry('faults', 'feed-weak')).toBe(SMALL);
  const sign = editable(SMALL).withEntry('signs', 'lit', 'volts(R, C) above 18 V');
  expect(sign).toContain('\nsigns:\n  lit: volts(R, C) above 18 V\n');
  expect(editable(sign).withoutEntry('signs', 'lit').trimEnd()).toBe(SMALL.trimEnd());
});

test('a formula with a comma inside braces is put in quotes, and one without quotes is found whole', () => {
  const text = SMALL.replace('rated: 24 V,', 'rated: max(24 V, 20 V),');
  const { coil } = editable(text).bench.parts;
  const after = editable(text).withEntry('parts', 'coil', { ...coil, rated: 'min(24 V, 26 V)' } as EntryValue);
  expect(after).toContain('rated: "min(24 V, 26 V)", va');
  expect(editable(after).bench.parts.coil).toMatchObject({ rated: 'min(24 V, 26 V)', resistance: '30 ohm' });
});

test('the top of a file is written in its own lines', () => {
  const named = editable(SMALL).withTop('title', 'Smaller: still');
  expect(named.split('\n')[0]).toBe('title: "Smaller: still" # as drawn');
  const more = editable(SMALL).withTop('terminals', ['R', 'C', 'G']);
  expect(changedLines(SMALL, more)).toEqual(['terminals: [R, C, G]']);
  expect(editable(editable(SMALL).withTop('about', 'What it is.')).bench.about).toBe('What it is.');
});

test('a text that is no bench cannot be changed by forms', () => expect(editableBench('parts: [')).toBeUndefined());

test.each(SHIPPED)('in %s every entry can be written anew as it is, changed in its own lines, and taken out alone', (file) => {
  const text = textOf(file);
  const before = editable(text);
  for (const section of ['settings', 'facts', 'parts', 'signs', 'faults'] as const satisfies readonly BenchSection[]) {
    for (const [name, value] of Object.entries(before.bench[section])) {
      expect(before.withEntry(section, name, value as EntryValue)).toBe(text);
      const without = before.withoutEntry(section, name);
      const left = readBench(without, { file });
      expect(left.bench?.[section]).not.toHaveProperty([name]);
      expect(Object.keys(left.bench?.[section] ?? {})).toHaveLength(Object.keys(before.bench[section]).length - 1);
      if (section === 'parts') {
        const labelled = before.withEntry('parts', name, { ...(value as Record<string, unknown>), label: 'Another, name: of it' });
        const read = readBench(labelled, { file }).bench;
        expect(read?.parts[name]).toEqual({ ...(value as object), label: 'Another, name: of it' });
        expect({ ...read, parts: { ...read?.parts, [name]: value } }).toEqual(before.bench);
        expect(labelled.split('\n').filter((line) => !text.split('\n').includes(line)).length).toBeLessThanOrEqual(1);
      }
    }
  }
});
