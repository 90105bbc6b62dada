import { describe, expect, test } from 'vitest';
import type { MeterAccuracy, QuantityKindName } from '../quantity/index.ts';
import type { Bench } from './bench.ts';
import { type MeterPlace, type MeterReading, measure, meterCorners } from './meter.ts';
import { type Situation, withFault, withJumper, withLifted, withSetting } from './situation.ts';
import { meterRefusalWords } from './solution-words.ts';
import { solvedBench, soundBench, VALVE } from './testing/bench-text.ts';

const bench = soundBench(VALVE);
const off = (s: Situation) => withSetting(s, 'main-power', 'off');
const same = (s: Situation) => s;

function take(quantity: QuantityKindName, place: MeterPlace, edit: (s: Situation) => Situation = same, options = {}, on: Bench = bench) {
  return measure(solvedBench(on, edit), quantity, place, options);
}

function reading(...args: Parameters<typeof take>): MeterReading {
  const taken = take(...args);
  if (!taken.ok) throw new Error(JSON.stringify(taken));
  return taken;
}

const across = (red: string, black: string): MeterPlace => ({ across: [red, black] });

describe('volts', () => {
  test.each([
    ['R', 'C', '26.5 V'],
    ['C', 'R', '26.5 V'],
    ['L1', 'N', '120.0 V'],
    ['K1', 'K2', '0.009 V'],
    ['V1', 'C', '26.4 V'],
    ['R', 'R', '0.000 V'],
  ])('%s to %s shows %s', (red, black, shown) => {
    expect(reading('ac-voltage', across(red, black)).shown).toBe(shown);
  });

  test('across an open contact of a loaded circuit: the supply, and nothing on DC', () => {
    const stuck = (s: Situation) => withFault(s, 'contact-stuck');
    expect(reading('ac-voltage', across('K1', 'K2'), stuck).shown).toBe('26.9 V');
    expect(reading('dc-voltage', across('K1', 'K2'), stuck).shown).toBe('0.0 mV');
  });

  test('a floating wire beside a live one: ghost volts on 10 MΩ, gone on the low input', () => {
    const floating = (s: Situation) => withLifted(withFault(s, 'contact-stuck'), 'coil-hot');
    const ghost = reading('ac-voltage', across('V1', 'C'), floating);
    const low = reading('ac-voltage', across('V1', 'C'), floating, { input: 'low' });
    // 40 ft at 30 pF/ft is 1.2 nF, 2.21 MΩ at 60 Hz, in series with the meter: 26.9 · 10 / |10 − j2.21| = 26.3 V.
    expect(ghost.value).toBeCloseTo((26.92 * 10) / Math.hypot(10, 2.21), 1);
    expect(Number(low.value)).toBeLessThan(0.05);
  });

  test('reference: 1 nF from 24 V at 60 Hz gives 23.2 V on 10 MΩ and 27 mV on 3 kΩ, 100 pF gives 8.5 V and 3 mV', () => {
    const ghost = (capacitance: string) =>
      soundBench(`
title: A conductor beside another
terminals: [R, C, X]
parts:
  source: { kind: source, between: [R, C], volts: 24 V, ohms: 0.01 ohm }
  beside: { kind: capacitor, between: [R, X], capacitance: ${capacitance} }
`);
    const volts = (capacitance: string, options = {}) => Number(reading('ac-voltage', across('X', 'C'), same, options, ghost(capacitance)).value);
    expect(volts('1 nF')).toBeCloseTo(23.2, 1);
    expect(volts('1 nF', { input: 'low' })).toBeCloseTo(0.027, 3);
    expect(volts('100 pF')).toBeCloseTo(8.5, 1);
    expect(volts('100 pF', { input: 'low' })).toBeCloseTo(0.003, 3);
  });

  test('reference: 24 V across two 250 MΩ reads 0.8889 V on a 10 MΩ meter, not 12 V (Lessons in Electric Circuits, vol. I)', () => {
    const loaded = soundBench(`
title: A meter that loads what it reads
terminals: [R, C, X]
parts:
  source: { kind: source, between: [R, C], volts: 24 V, ohms: 0.01 ohm }
  upper: { kind: resistor, between: [R, X], ohms: 250 Mohm }
  lower: { kind: resistor, between: [X, C], ohms: 250 Mohm }
`);
    expect(reading('ac-voltage', across('X', 'C'), same, {}, loaded).value).toBeCloseTo(0.888889, 5);
  });

  test('a low input that moves a contact is settled with the meter in the circuit: it takes away the volts that held the contact', () => {
    const held = soundBench(`
title: A contact held through a resistor
terminals: [R, C, X, Y]
parts:
  source: { kind: source, between: [R, C], volts: 24 V, ohms: 0.1 ohm }
  feed: { kind: resistor, between: [R, X], ohms: 10 kohm }
  holds: { kind: contact, between: [R, Y], closed-when: 'volts(X, C) above 12 V' }
  second: { kind: resistor, between: [Y, X], ohms: 10 kohm }
  load: { kind: resistor, between: [Y, C], ohms: 100 kohm }
`);
    expect(reading('ac-voltage', across('X', 'C'), same, {}, held).value).toBeCloseTo(24, 0);
    // 24 V · 3 kΩ in parallel with 110 kΩ behind 10 kΩ: below 12 V, so the contact opens and the second path is gone.
    const lower = (3000 * 110_000) / 113_000;
    expect(reading('ac-voltage', across('X', 'C'), same, { input: 'low' }, held).value).toBeCloseTo((24 * lower) / (10_000 + lower), 2);
  });

  test('between two circuits that share nothing a meter reads next to nothing', () => {
    const apart = soundBench(VALVE.replace('  bond: { kind: wire, between: [N, ground], gauge: 12 AWG, length: 50 ft }\n', ''));
    expect(Number(reading('ac-voltage', across('L1', 'C'), same, {}, apart).value)).toBeLessThan(0.1);
  });

  test('DC, signed by the red lead', () => {
    const dc = soundBench(`
title: A sensor on 5 V
terminals: [P, S, C]
parts:
  supply: { kind: dc-source, between: [P, C], volts: 5 V, ohms: 100 ohm }
  pull-up: { kind: resistor, between: [P, S], ohms: 9900 ohm }
  sensor: { kind: thermistor, between: [S, C], curve: type-2, temperature: 25 °C }
`);
    expect(reading('dc-voltage', across('S', 'C'), same, {}, dc)).toMatchObject({ shown: '2.50 V' });
    expect(reading('dc-voltage', across('C', 'S'), same, {}, dc).shown).toBe('-2.50 V');
    expect(reading('ac-voltage', across('S', 'C'), same, {}, dc).shown).toBe('0.000 V');
    expect(reading('temperature', { at: 'sensor' }, same, {}, dc).shown).toBe('77.0 °F');
  });
});

describe('ohms', () => {
  test('in circuit the meter sees what is in parallel; with the lead lifted the winding alone', () => {
    const parallel = soundBench(
      VALVE.replace(
        'control: { kind: load, between: [R, C], ohms: 600 ohm }',
        'other-coil: { kind: resistor, between: [V1, C], ohms: 30 ohm }\n  control: { kind: load, between: [R, C], ohms: 600 ohm }',
      ),
    );
    expect(reading('resistance', across('V1', 'C'), off, {}, parallel).shown).toBe('15.0 Ω');
    expect(reading('resistance', across('coil-hot', 'C'), (s) => withLifted(off(s), 'coil-hot'), {}, parallel).shown).toBe('30.0 Ω');
    const open = (s: Situation) => withFault(off(s), 'coil-open');
    expect(reading('resistance', across('V1', 'C'), open, {}, parallel).shown).toBe('30.0 Ω');
    expect(reading('resistance', across('coil-hot', 'C'), (s) => withLifted(open(s), 'coil-hot'), {}, parallel).shown).toBe('OL');
  });

  test('the transformer winding is nearly a short to an ohmmeter: half of 1.8 Ω', () => {
    expect(reading('resistance', across('R', 'C'), off).shown).toBe('0.9 Ω');
    expect(reading('continuity', across('R', 'C'), off).value).toBeCloseTo(0.8987, 3);
  });

  test('a lifted lead is its own point; landed it is its terminal', () => {
    expect(reading('resistance', across('coil-hot', 'V1'), off).value).toBe(0);
    expect(reading('resistance', across('coil-hot', 'V1'), (s) => withLifted(off(s), 'coil-hot')).shown).toBe('OL');
  });

  test('OL above 40 MΩ', () => {
    const high = (ohms: string) =>
      soundBench(`
title: High resistance
terminals: [A, B, C]
settings: { power: [off, on] }
parts:
  source: { kind: source, between: [A, C], volts: 24 V, when: power is on }
  leak: { kind: resistor, between: [A, B], ohms: ${ohms} }
  load: { kind: resistor, between: [A, C], ohms: 100 ohm }
`);
    expect(reading('resistance', across('A', 'B'), same, {}, high('39 Mohm')).shown).toBe('39.0 MΩ');
    expect(reading('resistance', across('A', 'B'), same, {}, high('41 Mohm'))).toMatchObject({ value: 'open', low: 'open', high: 'open' });
  });

  test.each(['resistance', 'continuity', 'capacitance'] as const)('%s on a live circuit is a named problem, not a number', (quantity) => {
    const taken = take(quantity, across('V1', 'C'));
    expect(taken).toMatchObject({ ok: false, code: 'circuit-live', quantity, source: 'xfmr', class: 'class-2' });
    expect(take(quantity, across('L1', 'N'))).toMatchObject({ ok: false, code: 'circuit-live', source: 'mains', class: 'line' });
    if (taken.ok) return;
    expect(meterRefusalWords(taken).message).toBe(
      `${quantity === 'resistance' ? 'Resistance' : quantity === 'continuity' ? 'Continuity' : 'Capacitance'} cannot be read here: the circuit is live from “xfmr”.`,
    );
  });

  test('across a closed contact on a live circuit too, where volts alone would show nothing', () => {
    expect(take('continuity', across('K1', 'K2'))).toMatchObject({ ok: false, code: 'circuit-live' });
  });

  test('with the power off only because a switch is thought to be: a welded one is live', () => {
    expect(take('resistance', across('V1', 'C'), (s) => withFault(off(s), 'disconnect-welded'))).toMatchObject({ ok: false, code: 'circuit-live' });
  });

  test('a part with both leads off the live circuit is read, power or not', () => {
    expect(reading('resistance', across('coil-hot', 'C'), (s) => withLifted(s, 'coil-hot')).shown).toBe('30.0 Ω');
  });

  test('capacitance of a dead capacitor', () => {
    const motor = soundBench(`
title: A capacitor
terminals: [A, B, N]
settings: { power: [off, on] }
parts:
  source: { kind: source, between: [A, N], volts: 120 V, when: power is on }
  run: { kind: capacitor, between: [A, B], capacitance: 35 uF }
  winding: { kind: resistor, between: [B, N], ohms: 20 ohm }
`);
    expect(reading('capacitance', across('A', 'B'), same, {}, motor).shown).toBe('35.0 µF');
    expect(reading('capacitance', across('B', 'N'), same, {}, motor).shown).toBe('OL');
  });
});

describe('amps and places', () => {
  test('a clamp reads a part, a jumper changes it', () => {
    expect(reading('ac-current', { at: 'valve-coil' }).shown).toBe('0.458 A');
    expect(reading('ac-current', { at: 'valve-coil' }, (s) => withJumper(withFault(s, 'contact-stuck'), 'K1', 'K2')).shown).toBe('0.458 A');
    expect(reading('ac-current', { at: 'valve-coil' }, (s) => withFault(s, 'coil-open')).value).toBe(0);
    expect(reading('frequency', across('R', 'C')).shown).toBe('60.0 Hz');
    expect(reading('frequency', across('R', 'C'), off).value).toBe(0);
  });

  test('flame current in microamps, in proportion to the volts across the flame', () => {
    const burner = soundBench(`
title: A flame
terminals: [L, FR, N]
settings: { gas: [on, off] }
parts:
  source: { kind: source, between: [L, N], volts: 120 V, ohms: 0.3 ohm }
  bond: { kind: wire, between: [N, ground], gauge: 14 AWG, length: 2 ft }
  feed: { kind: resistor, between: [L, FR], ohms: 1 Mohm }
  rod: { kind: flame, between: [FR, ground], amps: 3 uA, rated: 120 V, lit-when: gas is on }
  manifold: { kind: place, reads: pressure, is: 3.5 in. w.c., while: gas is on, else: 0 in. w.c. }
faults:
  fouled: { part: rod, becomes: 0.3 uA }
  grounded: { part: rod, becomes: shorted }
  low-gas: { part: manifold, becomes: 1.2 in. w.c. }
`);
    const microamps = (edit: (s: Situation) => Situation) => reading('dc-current', { at: 'rod' }, edit, {}, burner);
    // 1 MΩ and 30 MΩ in series leave 30/31 of the volts on the flame.
    expect(microamps(same).value).toBeCloseTo((3e-6 * 30) / 31, 9);
    expect(microamps(same).shown).toBe('2.90 µA');
    expect(microamps((s) => withFault(s, 'fouled')).shown).toBe('0.29 µA');
    expect(microamps((s) => withFault(s, 'grounded')).shown).toBe('0.00 µA');
    expect(microamps((s) => withSetting(s, 'gas', 'off')).value).toBe(0);
    expect(reading('pressure', { at: 'manifold' }, same, {}, burner).shown).toBe('3.50 in. w.c.');
    expect(reading('pressure', { at: 'manifold' }, (s) => withFault(s, 'low-gas'), {}, burner).shown).toBe('1.20 in. w.c.');
    expect(reading('pressure', { at: 'manifold' }, (s) => withSetting(s, 'gas', 'off'), {}, burner).value).toBe(0);
  });

  test.each([
    ['a point that is not there', 'ac-voltage', across('R', 'X'), 'unknown-point'],
    ['a part that is not there', 'ac-current', { at: 'nothing' }, 'unknown-point'],
    ['amps across two points', 'ac-current', across('R', 'C'), 'not-read-here'],
    ['ohms at a part', 'resistance', { at: 'valve-coil' }, 'not-read-here'],
    ['the temperature of a coil', 'temperature', { at: 'valve-coil' }, 'not-read-here'],
  ] as const)('%s is told as such', (_what, quantity, place, code) => {
    const taken = take(quantity, place);
    expect(taken).toMatchObject({ ok: false, code });
    if (!taken.ok) expect(meterRefusalWords(taken).fix.length).toBeGreaterThan(10);
  });
});

describe('accuracy and counts', () => {
  const on = (volts: string) =>
    soundBench(`
title: A plain source
terminals: [R, C]
parts:
  source: { kind: source, between: [R, C], volts: ${volts}, ohms: 0.001 ohm }
  load: { kind: resistor, between: [R, C], ohms: 1 Mohm }
`);
  const meter = (percent: number, counts: number, display: number): { accuracy: MeterAccuracy } => ({ accuracy: { percent, counts, display } });

  test.each([
    // Worked examples seen in print: 100.0 V at ±(1 % + 2) is 98.8 to 101.2 V; 120 V at ±(0.7 % + 2 counts), 0.1 V count, is 118.96 to 121.04 V.
    ['100 V', meter(1, 2, 2000), '100.0 V', 98.8, 101.2],
    ['120 V', meter(0.7, 2, 2000), '120.0 V', 118.96, 121.04],
    ['32 V', meter(2.5, 3, 4000), '32.00 V', 31.17, 32.83],
    ['24.06 V', {}, '24.1 V', 23.559, 24.641],
    ['24.06 V', meter(0.5, 2, 6000), '24.06 V', 23.9197, 24.2003],
  ])('%s', (volts, options, shown, low, high) => {
    const taken = reading('ac-voltage', across('R', 'C'), same, options, on(volts));
    expect(taken.shown).toBe(shown);
    expect(taken.low).toBeCloseTo(low, 6);
    expect(taken.high).toBeCloseTo(high, 6);
  });

  test('the corners of a reading: the least and the most that such a meter shows for it', () => {
    expect(meterCorners(reading('ac-voltage', across('R', 'C'), same, meter(1, 2, 2000), on('100 V'))).map(Number)).toEqual([
      expect.closeTo(98.8, 9),
      100,
      expect.closeTo(101.2, 9),
    ]);
    expect(meterCorners(reading('resistance', across('coil-hot', 'V1'), (s) => withLifted(off(s), 'coil-hot')))).toEqual(['open']);
  });
});
