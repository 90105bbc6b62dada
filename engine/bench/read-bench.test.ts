import { describe, expect, test } from 'vitest';
import { namesOf } from './bench-names.ts';
import { parseBench, readBench } from './read-bench.ts';
import { soundBench, VALVE } from './testing/bench-text.ts';

const read = (text: string) => readBench(text, { file: 'valve.bench.yaml' });
const changed = (from: string, to: string) => {
  if (!VALVE.includes(from)) throw new Error(`“${from}” is not in the bench`);
  return read(VALVE.replace(from, to));
};

describe('a sound bench', () => {
  test('has no problems, and gives what a tree may name', () => {
    expect(read(VALVE).problems).toEqual([]);
    expect(namesOf(soundBench(VALVE))).toEqual({
      terminals: ['L1', 'N', 'R', 'C', 'K1', 'K2', 'V1'],
      leads: ['coil-hot'],
      settings: { 'main-power': ['on', 'off'], call: ['on', 'off'] },
      signs: ['display-lit', 'water-runs'],
      faults: ['coil-open', 'contact-stuck', 'cock-shut', 'disconnect-welded'],
      facts: {
        'line-volts': { quantity: 'ac-voltage', ask: 'Line voltage', usual: '120 V', from: '108 V', to: '126 V' },
        run: { quantity: 'length', ask: 'Cable to the valve', usual: '40 ft', from: '10 ft', to: '150 ft' },
      },
      places: ['mains', 'bond', 'disconnect', 'xfmr', 'feed', 'dry-contact', 'valve-run', 'valve-coil', 'control'],
    });
  });

  test('is plain data: through JSON and the border of an edition it is the same bench', () => {
    const bench = soundBench(VALVE);
    expect(parseBench(JSON.parse(JSON.stringify(bench)))).toEqual({ ok: true, bench });
  });

  test('a formula with commas reads the same with and without quotes inside braces', () => {
    const quoted = VALVE.replace('closed-when: call is on and volts(R, C) above 18 V }', "closed-when: 'call is on and volts(R, C) above 18 V' }");
    expect(quoted).not.toBe(VALVE);
    expect(read(quoted).bench).toEqual(read(VALVE).bench);
    const nested = changed('ohms: 600 ohm }', 'ohms: parallel-ohms(600 ohm, ntc(10 kohm, type-2, 70 °F)) }');
    expect(nested.problems).toEqual([]);
    expect(nested.bench?.parts.control).toMatchObject({ ohms: 'parallel-ohms(600 ohm, ntc(10 kohm, type-2, 70 °F))' });
  });

  test('terminals may be numbers, as on a relay socket', () => {
    const { bench, problems } = read(VALVE.replaceAll('K1', '3').replaceAll('K2', '5'));
    expect(problems).toEqual([]);
    expect(bench?.terminals).toEqual(['L1', 'N', 'R', 'C', '3', '5', 'V1']);
  });
});

describe('a problem has its place, its part and a way out', () => {
  const at = (text: string, within: string, piece: string) => {
    const before = text.slice(0, text.indexOf(within) + within.indexOf(piece)).split('\n');
    return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
  };

  test.each([
    [
      'a part that a fault has wrong',
      'part: valve-coil, becomes',
      'part: valve-col, becomes',
      'unknown-part',
      'valve-col',
      'coil-open',
      'Did you mean “valve-coil”?',
    ],
    [
      'a word inside a condition',
      'valve-coil is pulled-in and',
      'valve-coil is pulled-inn and',
      'unknown-state',
      'pulled-inn',
      'water-runs',
      'Did you mean “pulled-in”?',
    ],
    [
      'a node inside a condition',
      'volts(R, C) above 18 V }',
      'volts(R, CC) above 18 V }',
      'unknown-terminal',
      'CC',
      'dry-contact',
      'Did you mean “C”?',
    ],
    ['a fact inside a formula', 'volts: line-volts', 'volts: 98 % of line-volt', 'unknown-name', 'line-volt', 'mains', 'Did you mean “line-volts”?'],
    ['a misspelt key', 'resistance: 30 ohm', 'resistence: 30 ohm', 'unknown-key', 'resistence', 'valve-coil', 'Did you mean “resistance”?'],
    ['a kind', 'kind: coil', 'kind: coill', 'unknown-kind', 'coill', 'valve-coil', 'Did you mean “coil”?'],
    ['a wrong unit in a pair', 'rated: 120 V to 24 V', 'rated: 120 V to 24 VA', 'unit-mismatch', '24 VA', 'xfmr', 'Give voltage with its unit.'],
    [
      'the capacitance of a stray',
      '30 pF/ft to R',
      '30 uF to R',
      'unit-mismatch',
      '30 uF',
      'valve-run',
      'Give capacitance per length with its unit.',
    ],
  ])('%s', (_what, from, to, code, piece, part, fix) => {
    const text = VALVE.replace(from, to);
    const { problems } = read(text);
    const found = problems.find((problem) => problem.code === code);
    expect(found, JSON.stringify(problems)).toMatchObject({ severity: 'error', file: 'valve.bench.yaml', step: part, fix, ...at(text, to, piece) });
    expect(found?.endColumn).toBe((found?.column ?? 0) + piece.length);
  });

  test('several at once', () => {
    const { problems } = read(
      VALVE.replace('ohms: 600 ohm', 'ohms: 600 V')
        .replace('part: cock,', 'part: cocks,')
        .replace('volts(R, C) above 18 V\n', 'volts(R, X9) above 18 V\n'),
    );
    expect(problems.map(({ code }) => code).sort()).toEqual(['unit-mismatch', 'unknown-part', 'unknown-terminal']);
  });
});

describe('bad benches, each a named problem', () => {
  const codes = (text: string) => read(text).problems.map(({ code }) => code);

  test.each([
    ['unknown part', changed('part: valve-coil', 'part: solenoid'), 'unknown-part'],
    ['missing terminal', changed('terminals: [L1,', 'terminals: [W, L1,'), 'missing-terminal'],
    [
      'short across the transformer',
      changed('control: { kind: load, between: [R, C], ohms: 600 ohm }', 'control: { kind: wire, between: [R, C], gauge: 18 AWG, length: 1 ft }'),
      'source-shorted',
    ],
    [
      'short across the mains',
      changed('control: { kind: load, between: [R, C], ohms: 600 ohm }', 'control: { kind: switch, between: [LINE, N], closed-when: call is on }'),
      'source-shorted',
    ],
    ['chattering relay', changed('closed-when: call is on and volts(R, C) above 18 V', 'closed-when: valve-coil is dropped-out'), 'chatter'],
    ['absurd value', changed('va: 40 VA', 'va: 40000000 VA'), 'absurd-value'],
    ['absurd at one end of a fact', changed('from: 10 ft, to: 150 ft', 'from: 10 ft, to: 15000 ft'), 'absurd-value'],
    ['a winding of more ohms than its rating', changed('resistance: 30 ohm', 'resistance: 300 ohm'), 'not-computable'],
    ['no-load volts below the rated ones', changed('no-load: 27 V', 'no-load: 22 V'), 'not-computable'],
    ['a setting that nothing heeds', changed('call: [on, off]', 'call: [on, off]\n  fan: [auto, on]'), 'not-used'],
    ['a part on one node', changed('between: [R, C], ohms', 'between: [C, C], ohms'), 'part-on-one-node'],
    [
      'two parts of one name',
      changed('cock: { kind: state, is: open }', 'cock: { kind: state, is: open }\n  feed: { kind: state, is: open }'),
      'duplicate-name',
    ],
    ['a tab for an indent', changed('  main-power:', '\tmain-power:'), 'not-readable'],
  ])('%s', (_what, { problems }, code) => {
    expect(problems.map((problem) => problem.code)).toContain(code);
    for (const { message, fix, line } of problems) expect([message.length > 10, fix.length > 10, line > 0]).toEqual([true, true, true]);
  });

  test('a shorted source is told with the parts that short it and the settings that do', () => {
    const { problems } = changed(
      'control: { kind: load, between: [R, C], ohms: 600 ohm }',
      'control: { kind: switch, between: [R, C], closed-when: call is off }',
    );
    expect(problems.find(({ code }) => code === 'source-shorted')?.message).toBe('“xfmr” is shorted by “control” with call off.');
  });

  test('chatter is told with its parts', () => {
    const { problems } = changed('closed-when: call is on and volts(R, C) above 18 V', 'closed-when: valve-coil is dropped-out');
    expect(problems.find(({ code }) => code === 'chatter')?.message).toContain('“dry-contact”, “valve-coil” keep switching each other');
  });

  test('an edition that carries a bad bench is refused at its border', () => {
    expect(parseBench({ title: 'x' })).toMatchObject({ ok: false });
    expect(parseBench(null)).toMatchObject({ ok: false });
    const bad = { ...soundBench(VALVE), faults: { x: { part: 'nothing', becomes: 'open', weight: 1 } } };
    expect(parseBench(bad)).toMatchObject({ ok: false, problems: [{ code: 'unknown-part' }] });
  });

  test('every other line lost still gives problems, not an exception', () => {
    expect(
      codes(
        VALVE.split('\n')
          .filter((_, i) => i % 2 === 0)
          .join('\n'),
      ).length,
    ).toBeGreaterThan(0);
  });
});
