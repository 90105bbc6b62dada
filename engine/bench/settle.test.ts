import { describe, expect, test } from 'vitest';
import { buildCircuit } from './circuit.ts';
import { prepare } from './prepare.ts';
import { settle } from './settle.ts';
import { asFound, type Situation, withFacts, withFault, withJumper, withLifted, withSetting } from './situation.ts';
import { nodeVolts, partStates, signsOf } from './solution.ts';
import { SolvedBench, solve } from './solve.ts';
import { anyBench, solvedBench, soundBench, VALVE } from './testing/bench-text.ts';

const supply = (rest: string, more = '') => `
title: Relays
terminals: [R, C]
settings:
  call: [on, off]
  start: [released, pressed]
facts:
  supply: { quantity: ac-voltage, ask: Control volts, usual: 24 V, from: 5 V, to: 30 V }
${more}
parts:
  source: { kind: source, between: [R, C], volts: supply, ohms: 0.1 ohm }
  calls: { kind: contact, between: [R, W], closed-when: call is on }
  starts: { kind: contact, between: [R, S], closed-when: start is pressed }
  call-load: { kind: load, between: [W, C], ohms: 1 kohm }
  start-load: { kind: load, between: [S, C], ohms: 1 kohm }
${rest}
`;

const relay = (name: string, a: string, b: string): string =>
  `  ${name}: { kind: coil, between: [${a}, ${b}], rated: 24 V, va: 6 VA, resistance: 30 ohm, pulls-in: 80 %, drops-out: 40 % }\n`;

describe('contacts and coils come to rest', () => {
  test('a valve pulls in through a contact that needs the supply', () => {
    const solved = solvedBench(soundBench(VALVE));
    expect(partStates(solved)).toMatchObject({ 'dry-contact': 'closed', 'valve-coil': 'pulled-in', disconnect: 'closed', cock: 'open' });
    expect(signsOf(solved)).toEqual({ 'display-lit': true, 'water-runs': true });
  });

  test('power off drops everything out', () => {
    const solved = solvedBench(soundBench(VALVE), (s) => withSetting(s, 'main-power', 'off'));
    expect(partStates(solved)).toMatchObject({ 'dry-contact': 'open', 'valve-coil': 'dropped-out' });
    for (const node of ['R', 'V1']) expect(nodeVolts(solved)[node]).toMatchObject({ re: expect.closeTo(0, 12), im: expect.closeTo(0, 12) });
  });

  const sealIn = soundBench(
    supply(`${relay('seal', 'X', 'C')}  button: { kind: contact, between: [R, X], closed-when: start is pressed }
  seal-contact: { kind: contact, between: [R, X], closed-when: seal is pulled-in and call is on }`),
  );

  test('a seal-in holds itself, and needs its button to begin', () => {
    const prepared = prepare(sealIn);
    const start = asFound(sealIn);
    const rest = solve(prepared, start);
    const pressed = solve(prepared, withSetting(start, 'start', 'pressed'));
    if (!rest.ok || !pressed.ok) throw new Error('not solved');
    expect(partStates(rest).seal).toBe('dropped-out');
    expect(partStates(pressed).seal).toBe('pulled-in');
    const released = solve(prepared, start, pressed);
    const dropped = released.ok ? solve(prepared, withSetting(start, 'call', 'off'), released) : undefined;
    if (!released.ok || !dropped?.ok) throw new Error('not solved');
    expect(partStates(released).seal).toBe('pulled-in');
    expect(partStates(dropped).seal).toBe('dropped-out');
  });

  test('between pull-in and drop-out a coil stays as it was', () => {
    const bench = soundBench(supply(relay('held', 'W', 'C')));
    const prepared = prepare(bench);
    const at = (volts: number) => withFacts(asFound(bench), { supply: volts });
    const state = (volts: number, before?: ReturnType<typeof solve>) => {
      const solved = solve(prepared, at(volts), before?.ok ? before : undefined);
      if (!solved.ok) throw new Error('not solved');
      return solved;
    };
    const full = state(24);
    expect(partStates(full).held).toBe('pulled-in');
    expect(partStates(state(15)).held).toBe('dropped-out');
    expect(partStates(state(15, full)).held).toBe('pulled-in');
    expect(partStates(state(8, full)).held).toBe('dropped-out');
  });

  test('two relays that lock each other out race, and one wins: said, not hidden', () => {
    const bench = soundBench(
      supply(`${relay('left', 'LX', 'C')}${relay('right', 'RX', 'C')}  left-contact: { kind: contact, between: [W, LX], closed-when: right is dropped-out }
  right-contact: { kind: contact, between: [W, RX], closed-when: left is dropped-out }`),
    );
    const solved = solvedBench(bench);
    expect(partStates(solved)).toMatchObject({ left: 'pulled-in', right: 'dropped-out' });
    expect(solved.race).toEqual(expect.arrayContaining(['left', 'right']));
    expect(solvedBench(bench, (s) => withSetting(s, 'call', 'off')).race).toEqual([]);
  });

  test('a relay that opens its own feed chatters, and the parts are named', () => {
    const bench = anyBench(
      supply(`${relay('buzzer', 'X', 'C')}  own-contact: { kind: contact, between: [W, X], closed-when: buzzer is dropped-out }`),
    );
    const solution = solve(prepare(bench), asFound(bench));
    expect(solution).toEqual({ ok: false, reason: 'chatter', parts: ['buzzer', 'own-contact'] });
  });
});

describe('fuses', () => {
  const fused = soundBench(
    supply(
      `  fuse: { kind: fuse, between: [W, F], rating: 3 A }
  bigger: { kind: fuse, between: [F, G], rating: 5 A }
  heater: { kind: load, between: [G, C], ohms: 100 ohm, lead: heater-hot on G }
${relay('pull', 'G', 'C').replace('va: 6 VA', 'va: 6 VA, inrush-va: 120 VA').replace('resistance: 30 ohm', 'resistance: 4 ohm')}
faults:
  shorted: { part: heater, becomes: shorted }
  jammed: { part: pull, becomes: stuck-open }`,
    ),
  );

  test('inrush that passes does not blow one; a coil that cannot pull in does', () => {
    expect(partStates(solvedBench(fused))).toMatchObject({ fuse: 'good', pull: 'pulled-in' });
    expect(partStates(solvedBench(fused, (s) => withFault(s, 'jammed')))).toMatchObject({ fuse: 'blown', bigger: 'good' });
  });

  test('a short blows the most overloaded of two in series, for good', () => {
    const prepared = prepare(fused);
    const shorted = solve(prepared, withFault(asFound(fused), 'shorted'));
    if (!shorted.ok) throw new Error('not solved');
    expect(partStates(shorted)).toMatchObject({ fuse: 'blown', bigger: 'good' });
    const repaired = solve(prepared, asFound(fused), shorted);
    if (!repaired.ok) throw new Error('not solved');
    expect(partStates(repaired).fuse).toBe('blown');
    expect(partStates(solvedBench(fused, (s) => withJumper(s, 'R', 'C'))).fuse).toBe('good');
  });

  test('a short that takes its own contact down still blows the fuse', () => {
    const bench = soundBench(
      supply(
        `  weak: { kind: resistor, between: [W, P], ohms: 2 ohm }
  fuse: { kind: fuse, between: [P, F], rating: 3 A }
  own: { kind: contact, between: [F, G], closed-when: 'volts(F, C) above 15 V' }
  heater: { kind: load, between: [G, C], ohms: 100 ohm }
faults:
  shorted: { part: heater, becomes: shorted }`,
      ),
    );
    const solved = solvedBench(bench, (s) => withFault(s, 'shorted'));
    expect(partStates(solved)).toMatchObject({ fuse: 'blown', own: 'open' });
    expect(solved.race).toEqual([]);
  });
});

describe('a sequence', () => {
  const bench = soundBench(
    supply(
      `  board:
    kind: sequence
    stages:
      rest: { purge: 'volts(W, C) above 18 V' }
      purge: { trial: fan is pulled-in }
      trial: { run: flame is lit, lockout: flame is out }
      run: {}
      lockout: {}
${relay('fan', 'X', 'C')}  fan-contact: { kind: contact, between: [R, X], closed-when: board is purge or board is trial or board is run }
  flame: { kind: flame, between: [R, C], amps: 3 uA, rated: 24 V, lit-when: fan is pulled-in and gas is on and (board is trial or board is run) }
  gas: { kind: state, is: on }
faults:
  no-gas: { part: gas, becomes: off }
  stuck: { part: board, becomes: purge }`,
    ),
  );

  test('goes from stage to stage once the rest is at rest, to where it ends', () => {
    expect(partStates(solvedBench(bench))).toMatchObject({ board: 'run', fan: 'pulled-in', flame: 'lit' });
    expect(partStates(solvedBench(bench, (s) => withSetting(s, 'call', 'off')))).toMatchObject({ board: 'rest', fan: 'dropped-out' });
    expect(partStates(solvedBench(bench, (s) => withFault(s, 'no-gas')))).toMatchObject({ board: 'lockout', fan: 'dropped-out', flame: 'out' });
    expect(partStates(solvedBench(bench, (s) => withFault(s, 'stuck')))).toMatchObject({ board: 'purge', fan: 'pulled-in' });
  });

  test('two faults at once', () => {
    const both = (s: Situation) => withFault(withFault(s, 'no-gas'), 'stuck');
    expect(partStates(solvedBench(bench, both))).toMatchObject({ board: 'purge', gas: 'off' });
  });

  test('that runs in circles is chatter', () => {
    const circle = anyBench(supply(`  board: { kind: sequence, stages: { rest: { busy: start is pressed }, busy: { rest: start is pressed } } }`));
    expect(solve(prepare(circle), withSetting(asFound(circle), 'start', 'pressed'))).toEqual({ ok: false, reason: 'chatter', parts: ['board'] });
  });
});

describe('the ladder of attempts', () => {
  const bench = soundBench(VALVE);
  const built = () => {
    const found = buildCircuit(prepare(bench), asFound(bench));
    if (!found.ok) throw new Error('not built');
    return found.circuit;
  };
  const settings = Int8Array.from([0, 0]);

  test('a circuit that nothing decides says at which node, after the dense solver has tried too', () => {
    const circuit = built();
    // A transformer alone: no magnetising branch, nothing on either side. Any volts would do.
    const lossless = {
      ...circuit,
      branches: circuit.branches.map((branch) => ({ ...branch, on: { re: 0, im: 0, dc: 0 }, off: { re: 0, im: 0, dc: 0 } })),
    };
    expect(settle(lossless, settings)).toMatchObject({ ok: false, reason: 'no-solution', why: 'its volts are decided by nothing' });
  });

  test('values that are no numbers never come out as an answer', () => {
    const circuit = built();
    const broken = {
      ...circuit,
      branches: circuit.branches.map((branch, i) => (i === 4 ? { ...branch, on: { re: Number.NaN, im: 0, dc: 0 } } : branch)),
    };
    expect(settle(broken, settings)).toMatchObject({ ok: false, reason: 'no-solution' });
  });

  test('a circuit that the sparse order cannot do is done by the dense one', () => {
    const lone = soundBench(`
title: A coil and a capacitor in series resonance
terminals: [X, R]
parts:
  source: { kind: source, between: [R, ground], volts: 24 V, ohms: 1 ohm }
  load: { kind: resistor, between: [R, ground], ohms: 100 ohm }
  one: { kind: capacitor, between: [R, X], capacitance: 10 uF }
  other: { kind: capacitor, between: [X, ground], capacitance: 10 uF }
`);
    const found = buildCircuit(prepare(lone), asFound(lone));
    if (!found.ok) throw new Error('not built');
    const susceptance = found.circuit.branches[2]?.on.im ?? 0;
    // The second becomes exactly the first with the other sign: the pivot at X is zero, the circuit is not.
    const resonant = {
      ...found.circuit,
      branches: found.circuit.branches.map((branch, i) =>
        i === 3 ? { ...branch, on: { re: 0, im: -susceptance, dc: 0 }, off: { re: 0, im: -susceptance, dc: 0 } } : branch,
      ),
    };
    const settled = settle(resonant, new Int8Array(0));
    if (!settled.ok) throw new Error(JSON.stringify(settled));
    expect(settled.method).toBe('dense');
    // In series resonance they short the source: 24 V through 1 Ω, and the volts across one of them are 24 A over its susceptance.
    const across = settled.view.volts(found.circuit.prepared.index.nodeNumber.get('R') ?? -1, found.circuit.prepared.index.nodeNumber.get('X') ?? -1);
    expect(across * susceptance).toBeCloseTo(24, 6);
  });
});

describe('what cannot be solved says why', () => {
  const bench = soundBench(VALVE);
  const prepared = prepare(bench);
  const start = asFound(bench);

  test.each([
    ['a fault', withFault(start, 'nothing'), 'fault', 'nothing'],
    ['a lead', withLifted(start, 'nothing'), 'lead', 'nothing'],
    ['a terminal', withJumper(start, 'R', 'X'), 'terminal', 'X'],
    ['a setting', withSetting(start, 'fan', 'on'), 'setting', 'fan'],
    ['a state', withSetting(start, 'call', 'maybe'), 'state of call', 'maybe'],
    ['a fact', withFacts(start, { outdoor: 280 }), 'fact', 'outdoor'],
  ])('%s that is not known', (_what, situation, what, name) => {
    expect(solve(prepared, situation)).toMatchObject({ ok: false, reason: 'unknown-name', what, name });
  });

  test('a fact beyond what its formulas can take', () => {
    const cold = soundBench(
      `${VALVE.replace('ohms: 600 ohm', 'ohms: 600 ohm + ntc(10 kohm, type-2, outdoor)').replace(
        'facts:',
        'facts:\n  outdoor: { quantity: temperature, ask: Outdoors, usual: 20 °F, from: 0 °F, to: 50 °F }',
      )}`,
    );
    expect(solve(prepare(cold), withFacts(asFound(cold), { outdoor: 100 }))).toEqual({
      ok: false,
      reason: 'no-value',
      part: 'control',
      field: 'ohms',
    });
    const impossible = withFacts(start, { run: -5 });
    expect(solve(prepared, impossible)).toMatchObject({ ok: false, reason: 'no-value', part: 'valve-run', why: { code: 'no-answer' } });
  });

  test('kept solutions are those that solving again would give', () => {
    const solver = new SolvedBench(prepared, 3);
    for (const fault of [...Object.keys(bench.faults), ...Object.keys(bench.faults)]) {
      const situation = withFault(start, fault);
      const [kept, fresh] = [solver.solve(situation), solve(prepare(bench), situation)];
      if (!kept.ok || !fresh.ok) throw new Error('not solved');
      expect(nodeVolts(kept)).toEqual(nodeVolts(fresh));
      expect(solver.solve(situation).ok).toBe(true);
    }
    expect(solver.solve(start)).toBe(solver.solve(start));
  });
});
