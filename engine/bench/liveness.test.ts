import { describe, expect, test } from 'vitest';
import { energised, worstCase } from './liveness.ts';
import { prepare } from './prepare.ts';
import { bypassedBy, safetyContacts } from './safety-contacts.ts';
import { asFound, type Situation, withFault, withJumper, withLifted, withSetting } from './situation.ts';
import { solvedBench, soundBench, VALVE } from './testing/bench-text.ts';

const worst = (text: string, edit: (s: Situation) => Situation = (s) => s) => {
  const bench = soundBench(text);
  const found = worstCase(prepare(bench), edit(asFound(bench)));
  if (!found.ok) throw new Error(JSON.stringify(found));
  return found;
};

const off = (s: Situation) => withSetting(s, 'main-power', 'off');
const SURE = VALVE.replace('  disconnect-welded: { part: disconnect, becomes: stuck-closed }\n', '');

describe('what could be live', () => {
  test('with the power on: line voltage up to the transformer, Class 2 behind it', () => {
    const now = worst(SURE);
    for (const point of ['L1', 'N']) expect(now.at(point)).toEqual({ class: 'line', source: 'mains' });
    for (const point of ['R', 'C', 'K1', 'K2', 'V1', 'coil-hot']) expect(now.at(point)).toEqual({ class: 'class-2', source: 'xfmr' });
  });

  test('with the power off: nothing, as a switch stays where a hand puts it', () => {
    const now = worst(SURE, off);
    for (const point of ['L1', 'R', 'C', 'K1', 'K2', 'V1']) expect(now.at(point)).toEqual({ class: 'dead' });
    expect(now.across('V1', 'C')).toEqual({ class: 'dead' });
  });

  test('unless the disconnect may be welded: then everything, with the fault named', () => {
    const now = worst(VALVE, off);
    expect(now.at('L1')).toEqual({ class: 'line', source: 'mains', fault: 'disconnect-welded' });
    expect(now.at('R')).toEqual({ class: 'class-2', source: 'xfmr', fault: 'disconnect-welded' });
    expect(now.across('V1', 'C')).toEqual({ class: 'class-2', source: 'xfmr', fault: 'disconnect-welded' });
  });

  test('a contact is never trusted to be open: a thermostat may call at any moment', () => {
    const now = worst(SURE.replace('call: [on, off]', 'call: [off, on]'));
    expect(now.at('K2')).toEqual({ class: 'class-2', source: 'xfmr' });
    expect(now.across('V1', 'C').class).toBe('class-2');
  });

  test('with the power off by a contact instead of a switch it could be live at any time', () => {
    const now = worst(SURE.replace('disconnect: { kind: switch', 'disconnect: { kind: contact'), off);
    expect(now.at('L1').class).toBe('line');
    expect(now.at('R').class).toBe('class-2');
  });

  test('a source that is off by its own setting is off', () => {
    const text = SURE.replace('ohms: 0.3 ohm }', 'ohms: 0.3 ohm, when: main-power is on }').replace(
      'disconnect: { kind: switch, between: [LINE, L1], closed-when: main-power is on }',
      'disconnect: { kind: wire, between: [LINE, L1], gauge: 12 AWG, length: 1 ft }',
    );
    expect(worst(text, off).at('L1')).toEqual({ class: 'dead' });
    expect(worst(text).at('L1').class).toBe('line');
  });

  test('a lifted lead: nothing can be driven through the coil alone, though its other end is on a live circuit', () => {
    const lifted = worst(SURE, (s) => withLifted(s, 'coil-hot'));
    expect(lifted.across('coil-hot', 'C')).toEqual({ class: 'dead' });
    expect(lifted.across('V1', 'C')).toEqual({ class: 'class-2', source: 'xfmr' });
    expect(lifted.part('valve-coil')).toEqual({ class: 'dead' });
    expect(worst(SURE).part('valve-coil').class).toBe('class-2');
  });

  test('line voltage at either lead counts, driven or not', () => {
    const text = SURE.replace('control: {', 'lamp: { kind: load, between: [L1, X], ohms: 100 ohm }\n  control: {').replace(
      'terminals: [L1,',
      'terminals: [X, L1,',
    );
    expect(worst(text).across('X', 'L1')).toEqual({ class: 'line', source: 'mains' });
  });

  test('a short to a line conductor, a jumper to it, and a bond that moved make a control circuit live at line voltage', () => {
    const short = worst(`${SURE}  pinched: { part: valve-run, becomes: to L1 }\n`);
    expect(short.at('V1')).toEqual({ class: 'line', source: 'mains', fault: 'pinched' });
    const jumper = worst(SURE, (s) => withJumper(s, 'L1', 'V1'));
    expect(jumper.at('V1')).toEqual({ class: 'line', source: 'mains' });
  });

  test('two transformers with their secondaries together feed each other back to line voltage', () => {
    const text = SURE.replace(
      'control: {',
      'second: { kind: transformer, primary: [P, Q], secondary: [R, C], rated: 120 V to 24 V, va: 40 VA, no-load: 27 V }\n  second-load: { kind: load, between: [P, Q], ohms: 500 ohm }\n  control: {',
    ).replace('terminals: [L1,', 'terminals: [P, Q, L1,');
    expect(worst(text).at('P')).toEqual({ class: 'line', source: 'second' });
    expect(worst(text, off).at('P')).toEqual({ class: 'dead' });
  });

  test("neutral does not count once the hot side is open, and a control's own supply is dead with the control", () => {
    const text = SURE.replace(
      'control: {',
      "sensor-supply: { kind: dc-source, between: [S, C], volts: 5 V, ohms: 1 kohm, when: 'volts(R, C) above 15 V' }\n  sensor: { kind: resistor, between: [S, C], ohms: 10 kohm }\n  control: {",
    ).replace('terminals: [L1,', 'terminals: [S, L1,');
    expect(worst(text).at('S')).toEqual({ class: 'class-2', source: 'sensor-supply' });
    expect(worst(text, off).at('S')).toEqual({ class: 'dead' });
    expect(worst(text, off).at('N')).toEqual({ class: 'dead' });
    expect(worst(text, off).across('S', 'C')).toEqual({ class: 'dead' });
    // A battery is always on.
    expect(worst(text.replace(", when: 'volts(R, C) above 15 V'", ''), off).at('S').class).toBe('class-2');
    // One that comes on when the rest is dead is on then.
    expect(worst(text.replace('volts(R, C) above 15 V', 'volts(R, C) below 15 V'), off).at('S').class).toBe('class-2');
  });

  test('line and neutral reversed: the switch opens neutral, and the unit stays at line voltage', () => {
    const now = worst(`${SURE}  line-reversed: { part: bond, becomes: moved from N to LINE }\n`, off);
    expect(now.at('L1')).toEqual({ class: 'line', source: 'mains', fault: 'line-reversed' });
    expect(now.at('N')).toEqual({ class: 'line', source: 'mains', fault: 'line-reversed' });
    // Nothing is driven through the transformer all the same.
    expect(now.across('R', 'C')).toEqual({ class: 'dead' });
  });

  test('stray capacitance makes nothing live to the touch, and is not read across on a live circuit', () => {
    const alone = worst(
      SURE.replace(
        'dry-contact: { kind: contact, between: [K1, K2], closed-when: call is on and volts(R, C) above 18 V }',
        'dry-contact: { kind: switch, between: [K1, K2], closed-when: call is off }',
      )
        .replace('valve-coil: { kind: coil, between: [V1, C]', 'valve-coil: { kind: coil, between: [V1, X]')
        .replace('terminals: [L1,', 'terminals: [X, L1,'),
    );
    expect(alone.at('V1')).toEqual({ class: 'dead' });
    expect(alone.across('V1', 'C')).toEqual({ class: 'class-2', source: 'xfmr' });
  });

  test('a fault that is already there is not counted twice, and unknown names are told', () => {
    expect(worst(VALVE, (s) => off(withFault(s, 'disconnect-welded'))).at('R')).toEqual({ class: 'class-2', source: 'xfmr' });
    const bench = soundBench(VALVE);
    expect(worstCase(prepare(bench), withSetting(asFound(bench), 'fan', 'on'))).toMatchObject({ ok: false, reason: 'unknown-name' });
    expect(worstCase(prepare(bench), withLifted(asFound(bench), 'none'))).toMatchObject({ ok: false, reason: 'unknown-name' });
  });
});

describe('what is energised now', () => {
  test('against the return of its own source', () => {
    const bench = soundBench(VALVE);
    const on = energised(solvedBench(bench));
    expect(on.L1).toMatchObject({ class: 'line' });
    expect(on.L1?.volts).toBeCloseTo(120, 0);
    expect(on.N).toMatchObject({ class: 'dead' });
    expect(on.V1).toMatchObject({ class: 'class-2' });
    expect(on.C?.volts).toBe(0);
    const stuck = energised(solvedBench(bench, (s) => withFault(s, 'contact-stuck')));
    expect([stuck.K1?.class, stuck.K2?.class]).toEqual(['class-2', 'dead']);
    expect(Object.values(energised(solvedBench(bench, off))).filter(({ class: is }) => is === 'class-2')).toEqual([]);
  });
});

describe('safety contacts', () => {
  const text = VALVE.replace(
    'feed: { kind: wire, between: [R, K1]',
    'limit: { kind: limit, between: [R, LX], closed-when: cock is open, safety: valve-coil }\n  feed: { kind: wire, between: [LX, K1]',
  );
  const bench = soundBench(text);
  const prepared = prepare(bench);
  const bypassed = (a: string, b: string, edit: (s: Situation) => Situation = (s) => s) =>
    bypassedBy(prepared, withJumper(edit(asFound(bench)), a, b), a, b);

  test('what each guards', () => {
    expect(safetyContacts(prepared)).toEqual({ limit: ['valve-coil'] });
  });

  test('a jumper past one, straight or with wires and contacts on the way', () => {
    expect(bypassed('R', 'K1')).toEqual(['limit']);
    expect(bypassed('R', 'K2')).toEqual(['limit']);
    expect(bypassed('R', 'V1')).toEqual(['limit']);
  });

  test('a jumper that leaves it in the circuit', () => {
    expect(bypassed('K1', 'K2')).toEqual([]);
    expect(bypassed('K2', 'V1')).toEqual([]);
    expect(bypassed('L1', 'N')).toEqual([]);
  });

  test('one that another jumper had bypassed already is not bypassed again', () => {
    expect(bypassed('R', 'K2', (s) => withJumper(s, 'K1', 'R'))).toEqual([]);
  });
});
