import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { callTrade, tradeListings } from '../../engine/cli/trade.ts';
import { unitOf } from '../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

function trade(...args: readonly string[]) {
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'engine/cli/main.ts', 'trade', ...args], { cwd: ROOT, encoding: 'utf8' });
  return { status: run.status, out: run.stdout, err: run.stderr };
}

describe('trade, as a process', () => {
  it('computes, and prints what from and by which source', () => {
    const { status, out, err } = trade('transformer-loading', '6 VA + 9 VA + 12 VA + 18 VA', '40 VA');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out.split('\n')[0]).toBe('transformer-loading(6 VA + 9 VA + 12 VA + 18 VA, 40 VA) = 112.5 %');
    expect(out.split('\n')[1]).toMatch(/^ {4}source: ./);
  });

  it('takes a temperature below zero for a temperature and not for an option', () => {
    const { status, out } = trade('highest-humidity', '74 °F', '-10 °F', 'double', '--json');
    expect(status).toBe(0);
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(['function', 'arguments', 'value', 'unit', 'text', 'source']);
    expect(report.arguments).toEqual([
      { name: 'indoor temperature', given: '74 °F', value: 74, unit: '°F' },
      { name: 'outdoor temperature', given: '-10 °F', value: -10, unit: '°F' },
      { name: 'glazing', given: 'double', value: 'double', unit: null },
    ]);
    expect(report).toMatchObject({ function: 'highest-humidity', unit: '%RH', text: '25.6 %RH' });
    expect(report.value).toBeCloseTo(25.6, 1);
  });

  it('lists every function, without one', () => {
    const { status, out } = trade('--json');
    expect(status).toBe(0);
    expect(JSON.parse(out).map((listing: { function: string }) => listing.function)).toEqual(Object.keys(TRADE_FUNCTIONS));
    const text = trade();
    expect(text.status).toBe(0);
    expect(text.out).toContain('dew-point(temperature in °F, relative humidity in %RH), in °F\n');
  });

  it('exits 1 on a wrong call, told on stderr, or as JSON on stdout', () => {
    const { status, out, err } = trade('dew-pont', '70 °F', '35 %RH');
    expect({ status, out }).toEqual({ status: 1, out: '' });
    expect(err).toContain('Did you mean dew-point?');
    const json = trade('dew-pont', '70 °F', '35 %RH', '--json');
    expect({ status: json.status, err: json.err }).toEqual({ status: 1, err: '' });
    expect(JSON.parse(json.out)).toMatchObject({ ok: false, code: 'unknown-function', argument: null });
  });
});

describe('a call of trade', () => {
  const troubleOf = (name: string, ...given: readonly string[]) => {
    const result = callTrade(name, given);
    if (result.ok) throw new Error(`computed ${result.value.text}`);
    expect(result.problem.message).not.toBe('');
    expect(result.problem.fix).not.toBe('');
    return { code: result.problem.code, argument: result.problem.argument };
  };

  it.each([
    ['unknown-function', null, 'boil-the-kettle', ['70 °F']],
    ['unknown-function', null, 'toString', []],
    ['unknown-option', null, 'dew-point', ['70 °F', '35 %RH', '--jsn']],
    ['wrong-count', null, 'dew-point', []],
    ['wrong-count', null, 'dew-point', ['70 °F']],
    ['wrong-count', null, 'dew-point', ['70', '°F', '35 %RH']],
    ['wrong-unit', 'temperature', 'dew-point', ['70', '35 %RH']],
    ['wrong-unit', 'temperature', 'dew-point', ['70 F', '35 %RH']],
    ['wrong-unit', 'temperature', 'dew-point', ['70 F°', '35 %RH']],
    ['wrong-unit', 'relative humidity', 'dew-point', ['70 °F', '35']],
    ['wrong-unit', 'length', 'wire', ['18 AWG', '10 ohm']],
    ['cannot-read', 'temperature', 'dew-point', ['', '35 %RH']],
    ['cannot-read', 'temperature', 'dew-point', ['warm', '35 %RH']],
    ['cannot-read', 'temperature', 'dew-point', ['70 °F)', '35 %RH']],
    ['cannot-read', 'length', 'wire', ['18 AWG', `${'('.repeat(3000)}1 ft`]],
    ['cannot-read', 'length', 'wire', ['18 AWG', '10 ft + 2 ohm']],
    ['no-answer', 'length', 'wire', ['18 AWG', '10 ft / 0']],
    ['unknown-choice', 'curve', 'ntc', ['10 kohm', 'type2', '32 °F']],
    ['unknown-choice', 'curve', 'ntc', ['10 kohm', '', '32 °F']],
    ['out-of-range', null, 'dew-point', ['70 °F', '130 %RH']],
    ['out-of-range', null, 'wire', ['60 AWG', '10 ft']],
    ['no-answer', null, 'dew-point', ['70 °F', '0 %RH']],
  ] as const)('is refused as %s (%s): %s %j', (code, argument, name, given) => {
    expect(troubleOf(name, ...given)).toEqual({ code, argument });
  });

  it('names the nearest curve and the nearest function', () => {
    expect(callTrade('ntc', ['10 kohm', 'type2', '32 °F'])).toMatchObject({ problem: { fix: expect.stringContaining('Did you mean type-2?') } });
    expect(callTrade('cabel-drop', [])).toMatchObject({ problem: { fix: expect.stringContaining('Did you mean cable-drop?') } });
  });

  it('shows how every function is called: the example of its wrong-count message runs', () => {
    for (const [name, { unit }] of Object.entries(TRADE_FUNCTIONS)) {
      const refused = callTrade(name, []);
      if (refused.ok) throw new Error(`${name} computed from nothing`);
      const call = refused.problem.fix.replace(`Write: trade ${name} `, '');
      const given = [...call.matchAll(/"([^"]+)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? '');
      expect(callTrade(name, given), `${name} ${call}`).toMatchObject({ ok: true, value: { unit } });
    }
  });

  it('lists a known unit, a source and what each argument is', () => {
    for (const { function: name, unit, source, gives, arguments: wants } of tradeListings()) {
      expect(unitOf(unit), name).toBeDefined();
      expect(source.length, name).toBeGreaterThan(5);
      expect(gives.length, name).toBeGreaterThan(10);
      // A plain number, such as a power factor, has the unit “”.
      for (const { name: of, unit: asked, choices } of wants)
        expect(asked === '' || (asked !== null && unitOf(asked)) || choices?.length, `${name} ${of}`).toBeTruthy();
    }
  });
});
