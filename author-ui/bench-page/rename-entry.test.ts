import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readBench } from '../../engine/bench/index.ts';
import { readShelf } from '../data/read-shelf.ts';
import { benchPath, type DeskFile } from '../store/desk-file.ts';
import { sourcesOf } from '../store/sources-of.ts';
import type { Renamable } from './entry-mentions.ts';
import { planRename } from './rename-entry.ts';

const FOLDER = new URL('../../trees/', import.meta.url);
const shipped = new Map<string, DeskFile>(
  [
    ...readdirSync(FOLDER).filter((file) => file.endsWith('.tree.mdx')),
    ...readdirSync(new URL('benches/', FOLDER)).flatMap((file) => (file.endsWith('.bench.yaml') ? [`benches/${file}`] : [])),
  ].map((path) => [path, { path, text: readFileSync(new URL(path, FOLDER), 'utf8'), changedAt: 0 }]),
);
const BENCHES = [...shipped.keys()].flatMap((path) => /^benches\/(.+)\.bench\.yaml$/.exec(path)?.[1] ?? []);

const benchOf = (files: ReadonlyMap<string, DeskFile>, name: string) => readBench(files.get(benchPath(name))?.text ?? '', { file: '' }).bench;

/** All files after a rename; throws where it is refused. */
function renamed(files: ReadonlyMap<string, DeskFile>, bench: string, section: Renamable, from: string, to: string): ReadonlyMap<string, DeskFile> {
  const plan = planRename(files, bench, { section, from, to });
  if (!plan.ok) throw new Error(`${bench} ${section} ${from}: ${JSON.stringify(plan.problem)}`);
  const changed = [...plan.value.edits].map(([path, text]): readonly [string, DeskFile] => [path, { path, text, changedAt: 1 }]);
  return new Map([...files, ...changed]);
}

const ONE: ReadonlyMap<string, DeskFile> = new Map(
  Object.entries({
    'benches/one.bench.yaml': `title: One
terminals: [L1, N, R, C, V1] # as printed
settings: { main-power: [on, off], r: [on, off] }
facts:
  line-volts: { quantity: ac-voltage, ask: Line, usual: 120 V, from: 108 V, to: 126 V }
parts:
  mains: { kind: source, between: [L1, N], volts: line-volts, when: main-power is on }
  bond: { kind: wire, between: [N, ground], gauge: 12 AWG, length: 60 ft }
  xfmr: { kind: transformer, primary: [L1, N], secondary: [R, C], rated: 100 % of line-volts to 24 V, va: 40 VA, no-load: 27 V }
  run: { kind: wire, between: [R, V1], gauge: 18 AWG, length: 40 ft, stray: 30 pF/ft to R } # beside R
  coil: { kind: coil, between: [V1, C], rated: 24 V, va: 10 VA, resistance: 30 ohm, lead: coil-hot on V1 }
  relay:
    kind: contact
    between: [R, C]
    closed-when: >-
      coil is pulled-in and volts(R, C) above 1 V
      and r is off and amps(coil) above 99 A
signs:
  lit: coil is pulled-in and volts(R, C) above 15 V
  seen: lit is yes
faults:
  coil-open: { part: coil, becomes: open }
  pinched: { part: run, becomes: to C }
`,
  }).map(([path, text]) => [path, { path, text, changedAt: 0 }]),
);
const text = (files: ReadonlyMap<string, DeskFile>): string => files.get('benches/one.bench.yaml')?.text ?? '';

describe('every mention follows, and nothing that only reads alike', () => {
  test('of a terminal: ends, leads, strays, faults, formulas; not the setting of that name', () => {
    const now = text(renamed(ONE, 'one', 'terminals', 'R', 'RH'));
    expect(now).toContain('terminals: [L1, N, RH, C, V1] # as printed');
    expect(now).toContain('stray: 30 pF/ft to RH } # beside R');
    expect(now).toContain('lit: coil is pulled-in and volts(RH, C) above 15 V');
    expect(now).toContain('r: [on, off]');
    const other = text(renamed(ONE, 'one', 'terminals', 'C', 'COM'));
    expect(other).toContain('pinched: { part: run, becomes: to COM }');
    expect(text(renamed(ONE, 'one', 'terminals', 'V1', 'V2'))).toContain('lead: coil-hot on V2');
  });

  test('of a part: faults, guards and conditions; not a fault or lead that begins alike', () => {
    const now = text(renamed(ONE, 'one', 'parts', 'coil', 'valve'));
    expect(now).toContain('  valve: { kind: coil, between: [V1, C], rated: 24 V, va: 10 VA, resistance: 30 ohm, lead: coil-hot on V1 }');
    expect(now).toContain('coil-open: { part: valve, becomes: open }');
    expect(now).toContain('lit: valve is pulled-in and volts(R, C) above 15 V');
    expect(benchOf(renamed(ONE, 'one', 'parts', 'coil', 'valve'), 'one')?.parts.relay).toMatchObject({
      'closed-when': 'valve is pulled-in and volts(R, C) above 1 V and r is off and amps(valve) above 99 A',
    });
  });

  test('of a setting, a fact, a sign and a fault', () => {
    expect(text(renamed(ONE, 'one', 'settings', 'main-power', 'service'))).toContain('volts: line-volts, when: service is on');
    const fact = text(renamed(ONE, 'one', 'facts', 'line-volts', 'supply'));
    expect(fact).toContain('volts: supply,');
    expect(fact).toContain('rated: 100 % of supply to 24 V');
    expect(text(renamed(ONE, 'one', 'signs', 'lit', 'lamp'))).toContain('seen: lamp is yes');
    expect(text(renamed(ONE, 'one', 'faults', 'coil-open', 'coil-burned'))).toContain('  coil-burned: { part: coil, becomes: open }');
  });

  test.each([
    ['a name that is no name', 'parts', 'coil', 'Big Coil', 'bad-name'],
    ['a name that is taken', 'parts', 'coil', 'run', 'taken'],
    ['a terminal that is taken', 'terminals', 'R', 'C', 'taken'],
    ['a terminal that the text has lost', 'terminals', 'Q9', 'Q8', 'gone'],
    ['a part that the text has lost', 'parts', 'no-part', 'some-part', 'gone'],
    ['a part called as a setting is', 'parts', 'coil', 'main-power', 'breaks'],
  ] as const)('%s is refused', (_, section, from, to, code) => {
    expect(planRename(ONE, 'one', { section, from, to })).toMatchObject({ ok: false, problem: { code } });
  });
});

// The benches that have every kind of part and mention between them.
const VARIED = BENCHES.filter((name) =>
  ['condensate-safeties', 'cooling-call', 'frost-control', 'ignition-sequence', 'own-transformer'].includes(name),
);

test.each(VARIED)(
  'on %s everything can be renamed and back again, and says the same',
  (name) => {
    const bench = benchOf(shipped, name);
    if (!bench) throw new Error('not a bench');
    for (const section of ['settings', 'facts', 'parts', 'signs', 'faults', 'terminals'] as const) {
      const names = section === 'terminals' ? bench.terminals : Object.keys(bench[section]);
      // One of each section: every rename reads the trees that are about it.
      const some = names.slice(-1);
      for (const from of some) {
        const to = section === 'terminals' ? 'ZZ9' : 'another-name';
        const there = renamed(shipped, name, section, from, to);
        const now = benchOf(there, name);
        expect(section === 'terminals' ? now?.terminals : Object.keys(now?.[section] ?? {})).toContain(to);
        expect(benchOf(renamed(there, name, section, to, from), name)).toEqual(bench);
        const before = shipped.get(benchPath(name))?.text.split('\n') ?? [];
        const lines = there.get(benchPath(name))?.text.split('\n') ?? [];
        expect(lines.filter((line) => !before.includes(line)).every((line) => line.includes(to))).toBe(true);
      }
    }
  },
  120_000,
);

test.each([
  ['settings', 'heat-call'],
  ['facts', 'line-volts'],
  ['parts', 'valve-coil'],
  ['signs', 'water-runs'],
  ['faults', 'coil-open'],
  ['terminals', 'V1'],
] as const)('the trees and the other benches of a tree follow a renamed one of %s, and nothing is wrong with them', (section, from) => {
  const there = renamed(shipped, 'own-transformer', section, from, section === 'terminals' ? 'ZZ9' : 'another-name');
  const changed = [...there].filter(([path, { text: now }]) => shipped.get(path)?.text !== now).map(([path]) => path);
  expect(changed).toContain('benches/own-transformer.bench.yaml');
  if (section !== 'parts') expect(changed).toContain('no-water-at-the-pad.tree.mdx');
  const wrong = (files: ReadonlyMap<string, DeskFile>): readonly string[] =>
    readShelf(
      sourcesOf(new Map([...files].filter(([path]) => changed.includes(path) || /own-transf|contact-fed|relay-to|call-to-proved/.test(path))), []),
    )
      .trees.filter(({ name }) => name === 'no-water-at-the-pad')
      .flatMap(({ problems }) => problems.map(({ code }) => code));
  expect(wrong(there)).toEqual(wrong(shipped));
});
