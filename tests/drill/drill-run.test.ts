import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type DrillMove,
  drillGround,
  drillProblemWords,
  drillRefusalWords,
  readDrillRecord,
  recordProblemWords,
  replayDrill,
} from '../../engine/review/index.ts';
import { DrillDriver } from './drill-driver.ts';
import { groundOn, shippedEdition, taskOn } from './drill-grounds.ts';

const TREE = 'no-water-at-the-pad';
const BENCH = 'own-transformer';
const volts = (a: string, b: string, input?: 'low'): DrillMove => ({ do: 'measure', takes: 'ac-voltage', across: [a, b], ...(input && { input }) });
const ohms = (a: string, b: string): DrillMove => ({ do: 'measure', takes: 'resistance', across: [a, b] });
const turn = (setting: string, state: string): DrillMove => ({ do: 'turn', setting, state });

describe('a drill read with a simulated meter', () => {
  it('shows what the meter would show on the circuit with the hidden fault in it', () => {
    // The valve's coil is open: 24 V and more arrives at its splices, and the plunger does not move.
    const open = new DrillDriver(groundOn(TREE, BENCH, { fault: 'coil-open' }));
    expect(Number.parseFloat(open.must(volts('V1', 'V2', 'low')).last ?? '')).toBeGreaterThan(23);
    expect(open.must({ do: 'look', sign: 'valve-clicks' }).last).toBe('no');
    const missing = new DrillDriver(groundOn(TREE, BENCH, { fault: 'feed-missing' }));
    expect(Number.parseFloat(missing.must(volts('V1', 'V2', 'low')).last ?? '')).toBeLessThan(1);
    expect(Number.parseFloat(missing.must(volts('R', 'C')).last ?? '')).toBeGreaterThan(23);
  });

  it('shows the house that the trainer set', () => {
    const low = new DrillDriver(groundOn(TREE, BENCH, { facts: { 'line-volts': '110 V' } })).must(volts('L1', 'N')).last;
    expect(Number.parseFloat(low ?? '')).toBeCloseTo(110, 0);
  });

  it('shows OL on ohms once it is safe to read them', () => {
    const drill = new DrillDriver(groundOn(TREE, BENCH, { fault: 'coil-open' }));
    expect(drill.send(ohms('V1', 'V2')).refused).toMatchObject({ code: 'unsafe', concern: { code: 'resistance-while-live' } });
    drill.must(turn('main-power', 'off'));
    // The switch could be a lie: what was live is read dead first, with a meter that is proved before and after.
    expect(drill.send(ohms('V1', 'V2')).refused).toMatchObject({ code: 'unsafe', concern: { code: 'not-proved-dead' } });
    drill.must({ do: 'prove-meter' }, volts('V1', 'V2'), volts('V1', 'C'), { do: 'prove-meter' });
    drill.must({ do: 'lift', lead: 'coil-hot' });
    expect(drill.must(ohms('coil-hot', 'V2')).last).toBe('OL');
  });

  it('keeps what was refused as unsafe, and nothing of a move that means nothing', () => {
    const drill = new DrillDriver(groundOn(TREE, BENCH, { fault: 'coil-open' }));
    drill.send(ohms('R', 'C'), { do: 'jumper', from: 'HL1', to: 'HL2' });
    drill.send(
      { do: 'jumper', from: 'R', to: 'nowhere' },
      { do: 'land', lead: 'coil-hot' },
      { do: 'measure', takes: 'pressure', across: ['R', 'C'] },
      'x',
      null,
    );
    expect(drill.refusals.map((refused) => refused?.code)).toEqual([
      'unsafe',
      'unsafe',
      'unknown',
      'already',
      'not-read-here',
      'not-a-move',
      'not-a-move',
    ]);
    expect(drill.run.record.lines.map(({ refused }) => refused)).toEqual(['resistance-while-live', 'safety-bypassed']);
    expect(drill.run.circuit.jumpers).toEqual([]);
  });

  it('keeps a fuse blown that a jumper blew', () => {
    const drill = new DrillDriver(groundOn(TREE, BENCH));
    expect(Number.parseFloat(drill.must(volts('R', 'C')).last ?? '')).toBeGreaterThan(23);
    drill.must({ do: 'jumper', from: 'R', to: 'C' }, { do: 'remove-jumper', from: 'R', to: 'C' });
    expect(Number.parseFloat(drill.must(volts('R', 'C')).last ?? '')).toBeLessThan(1);
    expect(drill.run.blown).toEqual(['fuse']);
  });

  it('takes the jumper off with the loose end that it hung on', () => {
    const drill = new DrillDriver(groundOn(TREE, BENCH)).must(turn('main-power', 'off'));
    drill.must({ do: 'prove-meter' }, volts('V1', 'V2'), volts('V1', 'C'), { do: 'prove-meter' }, { do: 'lift', lead: 'coil-hot' });
    drill.send({ do: 'jumper', from: 'coil-hot', to: 'C' });
    expect(drill.run.circuit.jumpers).toHaveLength(drill.refused ? 0 : 1);
    drill.send({ do: 'land', lead: 'coil-hot' });
    expect(drill.run.circuit.jumpers).toEqual([]);
  });

  it('takes nothing after its answer', () => {
    const drill = new DrillDriver(groundOn(TREE, BENCH)).must({ do: 'name', faults: [] });
    expect(drill.send(volts('R', 'C')).refused).toEqual({ code: 'ended' });
    expect(drill.send({ do: 'name', faults: ['nothing-like-it'] }).refused).toEqual({ code: 'ended' });
    expect(new DrillDriver(groundOn(TREE, BENCH)).send({ do: 'name', faults: ['nothing-like-it'] }).refused).toMatchObject({
      code: 'unknown',
      what: 'fault',
    });
  });
});

describe('a drill along the tree', () => {
  const ground = () => groundOn(TREE, BENCH, { fault: 'cock-shut', order: 'tree' });
  const event = (of: object): DrillMove => ({ do: 'walk', event: of }) as DrillMove;

  it('stands at the opening with the house told, and is marked a drill', () => {
    const { run } = new DrillDriver(ground());
    expect(run.walk?.snapshot.context.opened.drill).toBe(true);
    expect(run.walk?.snapshot.context.facts.wiring?.typed).toBe(BENCH);
  });

  it('takes what stands on the display and nothing else, and leaves the circuit to the tree', () => {
    const drill = new DrillDriver(ground());
    expect(drill.send(turn('main-power', 'off')).refused).toEqual({ code: 'tree-order' });
    expect(drill.send({ do: 'name', faults: ['cock-shut'] }).refused).toEqual({ code: 'tree-order' });
    expect(drill.send(event({ type: 'read', typed: '27 V' })).refused).toEqual({ code: 'not-on-the-display', typed: '27 V' });
    expect(new DrillDriver(groundOn(TREE, BENCH)).send(event({ type: 'went-on' })).refused).toEqual({ code: 'free-order' });
  });
});

describe('a record', () => {
  const record = () =>
    new DrillDriver(groundOn(TREE, BENCH, { fault: 'coil-open' })).send(ohms('R', 'C')).must(volts('R', 'C'), { do: 'give-up' }).run.record;

  it('is plain JSON and gives the same drill again', () => {
    const read = readDrillRecord(JSON.parse(JSON.stringify(record())));
    if (!read.ok) throw new Error(JSON.stringify(read.problem));
    const again = replayDrill(shippedEdition(TREE), read.value);
    expect(again).toMatchObject({ ok: true, value: { run: { end: { how: 'gave-up' } } } });
    expect(again.ok && again.value.problem).toBeUndefined();
  });

  it('that was changed is found out', () => {
    const { lines, ...rest } = record();
    const changed = { ...rest, lines: lines.map((line) => (line.shown ? { ...line, shown: '3 V' } : line)) };
    expect(replayDrill(shippedEdition(TREE), changed)).toMatchObject({ ok: true, value: { problem: { code: 'played-otherwise', line: 1 } } });
    expect(replayDrill(shippedEdition('control-fuse-blows'), record())).toMatchObject({ ok: false, problem: { problem: { code: 'other-edition' } } });
    for (const bad of [undefined, 7, {}, { ...rest, lines: [{}] }]) expect(readDrillRecord(bad).ok).toBe(false);
  });

  it('has words for all that can be wrong', () => {
    const edition = shippedEdition(TREE);
    const problems = [
      { tree: 'other' },
      { bench: 'no-bench' },
      { fault: 'no-fault' },
      { facts: { 'no-fact': '1' } },
      { facts: { wiring: 'no-choice' } },
      { facts: { 'line-volts': 'many' } },
      { facts: { 'line-volts': '480 V' } },
      { edition: '0'.repeat(64) },
    ].map((more) => drillGround(edition, taskOn(TREE, BENCH, more)));
    expect(problems.map((problem) => !problem.ok && problem.problem.code)).toEqual([
      'unknown-tree',
      'unknown-bench',
      'unknown-fault',
      'unknown-fact',
      'unknown-choice',
      'fact-not-readable',
      'fact-outside',
      'other-edition',
    ]);
    for (const problem of problems) if (!problem.ok) expect(Object.values(drillProblemWords(problem.problem)).join('')).toMatch(/\S.{20}/);
    for (const problem of [
      { code: 'not-a-record', detail: 'x' },
      { code: 'played-otherwise', line: 0 },
    ] as const)
      expect(recordProblemWords(problem).fix).toMatch(/\S/);
  });
});

// Names of the bench, and some that it has not.
const points = fc.constantFrom(
  'L1',
  'N',
  'HUM',
  'P1',
  'T1',
  'F1',
  'R',
  'C',
  'K1',
  'K2',
  'HL1',
  'HL2',
  'V1',
  'V2',
  'S1',
  'S2',
  'coil-hot',
  'sensor-hot',
  'X9',
  '',
);
const move = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant('measure'),
      takes: fc.constantFrom('ac-voltage', 'dc-voltage', 'resistance', 'capacitance', 'frequency', 'humidity'),
      across: fc.tuple(points, points),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant('turn'),
      setting: fc.constantFrom('main-power', 'heat-call', 'humidity-call', 'x'),
      state: fc.constantFrom('on', 'off', 'open'),
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constantFrom('jumper', 'remove-jumper'), from: points, to: points }) },
  fc.record({ do: fc.constantFrom('lift', 'land'), lead: fc.constantFrom('coil-hot', 'sensor-hot', 'x') }),
  fc.record({ do: fc.constant('prove-meter') }),
  fc.record({ do: fc.constant('look'), sign: fc.constantFrom('valve-clicks', 'display-lit', 'x') }),
  fc.record({ do: fc.constant('measure-at'), takes: fc.constantFrom('ac-current', 'pressure'), at: fc.constantFrom('valve-coil', 'mains', 'x') }),
  fc.record({
    do: fc.constant('walk'),
    event: fc.record({ type: fc.constantFrom('went-on', 'did', 'found', 'read'), typed: fc.constantFrom('OL', '24 V') }),
  }),
  { weight: 1, arbitrary: fc.anything() },
);
const moves = fc.array(move, { minLength: 1, maxLength: 14 });
const FAULTS = [undefined, 'coil-open', 'coil-shorted', 'feed-missing', 'xfmr-open', 'hum-relay-open', 'fuse-blown'] as const;

describe('whatever is done', () => {
  it('never throws, has words, and replays to the same', () => {
    fc.assert(
      fc.property(moves, fc.constantFrom(...FAULTS), (list, fault) => {
        const drill = new DrillDriver(groundOn(TREE, BENCH, fault ? { fault } : {}));
        drill.send(...list);
        for (const refused of drill.refusals) if (refused) expect(drillRefusalWords(refused).message).toMatch(/\S/);
        const again = replayDrill(shippedEdition(TREE), JSON.parse(JSON.stringify(drill.run.record)));
        expect(again).toMatchObject({ ok: true });
        if (!again.ok) return;
        expect(again.value.problem).toBeUndefined();
        expect(again.value.run.circuit).toEqual(drill.run.circuit);
        expect(again.value.run.record).toEqual(drill.run.record);
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  it('is refused by what could be live: for every fault alike, as long as the same was read', () => {
    let compared = 0;
    fc.assert(
      fc.property(moves, (list) => {
        const drills = FAULTS.map((fault) => new DrillDriver(groundOn(TREE, BENCH, fault ? { fault } : {})));
        for (const each of list) {
          const [sound, ...others] = drills;
          const same = others.filter((drill) => JSON.stringify(drill.run.circuit) === JSON.stringify(sound?.run.circuit));
          for (const drill of drills) drill.send(each);
          for (const drill of same) {
            expect(drill.refused).toEqual(sound?.refused);
            if (drill.refused?.code === 'unsafe') compared += 1;
          }
        }
      }),
      { seed: 11, numRuns: 40 },
    );
    expect(compared).toBeGreaterThan(20);
  });
});
