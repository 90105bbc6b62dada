import { expect, test } from 'vitest';
import { readBench } from '../../engine/bench/index.ts';
import { benchPath, type DeskFile } from '../store/desk-file.ts';
import { benchFormWords } from './bench-form-words.ts';
import { benchWrite } from './bench-write.ts';
import { mergeEntry } from './merge-entry.ts';

const PATH = benchPath('small');
const SMALL = `title: Small
terminals: [R, C]
settings:
  call: [on, off]
parts:
  coil: { kind: coil, between: [R, C], rated: 24 V, va: 10 VA, resistance: 30 ohm }
faults:
  coil-open: { part: coil, becomes: open }
  coil-shorted: { part: coil, becomes: shorted }
  coil-tired: { part: coil, becomes: drifted to 60 ohm }
`;

/** Files in memory, with the label of every step of work. */
function inMemory(text = SMALL) {
  let files: ReadonlyMap<string, DeskFile> = new Map([[PATH, { path: PATH, text, changedAt: 0 }]]);
  const steps: string[] = [];
  const apply = (edits: ReadonlyMap<string, string>, label: string): void => {
    steps.push(label);
    files = new Map([...files, ...[...edits].map(([path, to]): [string, DeskFile] => [path, { path, text: to, changedAt: 1 }])]);
  };
  return { files: () => files, apply, steps, now: () => files.get(PATH)?.text ?? '', type: (to: string) => apply(new Map([[PATH, to]]), 'typed') };
}

const benchIn = (text: string) => readBench(text, { file: '' }).bench;

test('of two removals right after each other neither takes the other back', () => {
  const store = inMemory();
  // Both presses belong to the same drawing of the page.
  const write = benchWrite(store, 'small');
  expect(write.edit('first', (now) => now.withoutEntry('faults', 'coil-open'))).toEqual([]);
  expect(write.edit('second', (now) => now.withoutEntry('faults', 'coil-shorted'))).toEqual([]);
  expect(Object.keys(benchIn(store.now())?.faults ?? {})).toEqual(['coil-tired']);
  expect(store.steps).toEqual(['first', 'second']);
});

test('letters typed just before a save or a rename stay', () => {
  const store = inMemory();
  const write = benchWrite(store, 'small');
  store.type(store.now().replace('title: Small', 'title: Smaller'));
  expect(write.edit('add', (now) => now.withEntry('settings', 'power', ['on', 'off']))).toEqual([]);
  expect(store.now()).toContain('title: Smaller');
  store.type(store.now().replace('30 ohm', '31 ohm'));
  expect(write.renamed({ section: 'parts', from: 'coil', to: 'valve' }, 'rename', (now) => now.withTop('title', 'Smallest'))).toEqual([]);
  expect(benchIn(store.now())).toMatchObject({
    title: 'Smallest',
    parts: { valve: { resistance: '31 ohm' } },
    faults: { 'coil-open': { part: 'valve' } },
  });
});

test('while the text cannot be read nothing is written, and the form says so', () => {
  const store = inMemory();
  const write = benchWrite(store, 'small');
  store.type(`${SMALL}signs: [`);
  const broken = store.now();
  expect(write.edit('remove', (now) => now.withoutEntry('faults', 'coil-open'))).toEqual([benchFormWords.waiting]);
  expect(write.renamed({ section: 'parts', from: 'coil', to: 'valve' }, 'rename')).not.toEqual([]);
  expect(store.now()).toBe(broken);
});

test('what would be no bench is told and not written, and so is what a change refuses', () => {
  const store = inMemory();
  const write = benchWrite(store, 'small');
  expect(write.edit('spoil', (now) => `${now.text}signs: [`)).not.toEqual([]);
  expect(write.edit('refuse', () => ['no'])).toEqual(['no']);
  expect(store.steps).toEqual([]);
});

test('a field that the form left alone is left as the text has it by now', () => {
  const shown = { kind: 'coil', rated: '24 V', va: '10 VA', lead: 'hot on R' };
  const now = { kind: 'coil', rated: '26 V', va: '10 VA', lead: 'hot on R', label: 'Valve' };
  expect(mergeEntry(shown, { ...shown, va: '12 VA' }, now)).toEqual({ ...now, va: '12 VA' });
  // Emptied in the form: gone.
  const { lead: _, ...emptied } = shown;
  expect(mergeEntry(shown, emptied, now)).toEqual({ kind: 'coil', rated: '26 V', va: '10 VA', label: 'Valve' });
  // Taken out of the text: gone too.
  expect(mergeEntry(shown, { ...shown, va: '12 VA' }, { kind: 'coil', rated: '24 V', va: '10 VA' })).toEqual({
    kind: 'coil',
    rated: '24 V',
    va: '12 VA',
  });
  expect(mergeEntry(['on', 'off'], ['on', 'off'], ['on', 'off', 'fan'])).toEqual(['on', 'off', 'fan']);
});

test('an entry of another kind, or one that is no longer there, is as the form has it', () => {
  const shown = { kind: 'coil', rated: '24 V' };
  expect(mergeEntry(shown, { kind: 'load', ohms: '600 ohm' }, { ...shown, va: '10 VA' })).toEqual({ kind: 'load', ohms: '600 ohm' });
  expect(mergeEntry(shown, shown, undefined)).toEqual(shown);
});
