import { describe, expect, it } from 'vitest';
import { smallEdition } from './testing/small-edition.ts';
import { WalkDriver } from './testing/walk-driver.ts';
import { walkableEdition } from './walk.ts';

const edition = walkableEdition(smallEdition());
const open = () => new WalkDriver(edition).open().tell('wiring', 'own');

const toCoil = () => open().read('27.4').act().look('dry').act().read('0.0').act();

describe('a walk from end to end', () => {
  it('ends on the open coil, put back and rechecked', () => {
    const call = toCoil().read('OL');
    expect(call.at).toBe('finding coil-open');
    call.must({ type: 'found' }, { type: 'repaired', done: true });
    expect(call.at).toBe('put-back coil-open');
    expect(call.view.putBack.map((i) => i.key)).toEqual(['jumper K1~K2', 'lead coil-hot', 'setting main-power']);
    call.putAllBack();
    expect(call.at).toBe('recheck water-runs');
    call.must({ type: 'rechecked', saw: 'runs' });
    expect(call.view.outcome).toBe('fixed');
    call.must({ type: 'closed' });
    expect(call.at).toBe('closed coil-open');
    expect(call.view.path.map((e) => `${e.step}: ${e.on}`)).toEqual([
      'wiring: own',
      'power: 75 % of coil-rated to 125 % of coil-rated',
      'close-by-hand: done',
      'water-runs: dry',
      'power-off: done',
      'dead: below 2 V',
      'lift: done',
      'coil: open',
      'coil-open: found',
    ]);
  });

  it('goes on with the fault excluded when the complaint comes back', () => {
    const call = toCoil().read('OL').must({ type: 'found' }, { type: 'repaired', done: true }).putAllBack().must({ type: 'rechecked', saw: 'dry' });
    expect(call.at).toBe('work wiring');
    expect(call.view.excluded).toEqual(['coil-open']);
    call.tell('wiring', 'own').read('27.4').act().look('runs');
    expect(call.at).toBe('finding contact-open');
    call.must({ type: 'found' }, { type: 'repaired', done: true }).putAllBack().must({ type: 'rechecked', saw: 'runs' }, { type: 'closed' });
    expect(call.view.outcome).toBe('fixed');
    expect(call.view.rechecks.map((r) => r.passed)).toEqual([false, true]);
  });

  it('walks into another tree and comes back with its finding and its facts', () => {
    const call = open().read('0.3');
    expect(call.view.tree.name).toBe('supply');
    call.read('118.5');
    expect(call.at).toBe('finding transformer-open');
    expect(call.view.facts.find((f) => f.name === 'line-volts')).toMatchObject({ text: '118.5 V', source: 'read', outside: false });
    call.must({ type: 'found' }, { type: 'repaired', done: true });
    expect(call.at).toBe('recheck water-runs');
  });

  it('hands off: everything back, no recheck, closed unsolved', () => {
    const call = open().read('27').act().look('dry').readCautions().must({ type: 'could-not', why: 'no key to the panel' });
    expect(call.at).toBe('handoff wires-out-of-reach');
    call.must({ type: 'went-on' });
    expect(call.at).toBe('put-back wires-out-of-reach');
    call.putAllBack();
    expect(call.at).toBe('closing wires-out-of-reach');
    call.must({ type: 'closed' });
    expect(call.view.outcome).toBe('handed-off');
  });

  it('keeps a repair that waits for a part apart from a repair that failed', () => {
    const call = open()
      .read('27')
      .act()
      .look('runs')
      .must({ type: 'found' }, { type: 'repaired', done: false, note: 'part ordered' })
      .putAllBack()
      .must({ type: 'closed' });
    expect(call.view.outcome).toBe('not-repaired');
    expect(call.view.repaired).toEqual({ done: false, note: 'part ordered' });
  });

  it('finds nothing wrong', () => {
    const call = toCoil().read('31').must({ type: 'found' }).putAllBack();
    expect(call.at).toBe('recheck water-runs');
    call.must({ type: 'rechecked', saw: 'runs' }, { type: 'closed' });
    expect(call.view.outcome).toBe('nothing-wrong');
  });
});

describe('cautions', () => {
  it('come before anything can be entered', () => {
    const call = new WalkDriver(edition).must({ type: 'opened' }).send({ type: 'went-on' });
    expect(call.refusals).toEqual([{ code: 'cautions-first', left: 1 }]);
    const dead = open().read('27').act().look('dry').act();
    expect(dead.at).toBe('cautions dead');
    dead.send({ type: 'read', typed: '0' });
    expect(dead.refusals.at(-1)).toEqual({ code: 'cautions-first', left: 1 });
  });

  it('of caution and notice are shown and hold nobody up', () => {
    const call = open().read('27');
    expect(call.at).toBe('work close-by-hand');
    expect(call.view.cautions).toMatchObject([{ mustRead: false, read: false }]);
  });

  it('are read again when the step is entered again', () => {
    const call = open().read('27').act().look('dry').act().readCautions();
    expect(call.at).toBe('work dead');
    call.must({ type: 'stepped-back', to: 4 });
    expect(call.at).toBe('cautions power-off');
  });
});

describe('readings', () => {
  it('carry the numbers of this house, the verdict and its margin', () => {
    const call = open().must({ type: 'told', fact: 'coil-rated', typed: '24' }, { type: 'read', typed: '27.4 V' });
    const { judged } = call.view.verdict ?? {};
    expect(judged?.on).toBe('75 % of coil-rated to 125 % of coil-rated');
    expect(judged?.bands).toContainEqual({ on: '75 % of coil-rated to 125 % of coil-rated', low: 18, high: 30 });
    expect(judged?.margin).toBeCloseTo(2.6, 9);
    // ±(1 % of 27.4 + 3 counts of 0.1) by the usual form of a meter's accuracy.
    expect(judged?.halfWidth).toBeCloseTo(0.274 + 0.3, 9);
    expect(call.lines.at(-1)?.event).toMatchObject({ type: 'read', typed: '27.4 V', judged: { si: 27.4, unit: 'V' } });
  });

  it('follow the facts of the house', () => {
    const call = open().must({ type: 'told', fact: 'coil-rated', typed: '20' }, { type: 'read', typed: '26' });
    expect(call.view.verdict?.on).toBe('otherwise');
    call.must({ type: 'told', fact: 'coil-rated', typed: '24' });
    expect(call.view.verdict?.on).toBe('75 % of coil-rated to 125 % of coil-rated');
  });

  it('too close to call are said so, can be read again, and the log says who went on', () => {
    const call = open().must({ type: 'read', typed: '18.2' });
    expect(call.view.verdict).toMatchObject({ tooClose: true, judged: { reaches: ['2 V to 75 % of coil-rated'] } });
    call.must({ type: 'read', typed: '19.5' });
    expect(call.view.verdict?.tooClose).toBe(false);
    call.must({ type: 'read', typed: '18.2' }, { type: 'went-on', tooClose: true });
    expect(call.view.path.at(-2)).toMatchObject({ step: 'power', typed: '18.2', acceptedTooClose: true });
  });

  it.each([
    ['twenty', 'not-readable'],
    ['', 'not-readable'],
    ['24 ohm', 'not-readable'],
    ['-3', 'not-readable'],
    ['1,200', 'not-readable'],
    ['OL', 'not-readable'],
  ])('refuse %j and change nothing', (typed, code) => {
    const call = open();
    const before = call.walk;
    call.send({ type: 'read', typed });
    expect(call.refusals.at(-1)?.code).toBe(code);
    expect(call.walk).toBe(before);
  });
});

describe('what is temporary', () => {
  it('keeps the walk from closing', () => {
    const call = open().read('27').act().look('runs').must({ type: 'found' }, { type: 'repaired', done: true }).send({ type: 'closed' });
    expect(call.refusals.at(-1)?.code).toBe('not-now');
    expect(call.at).toBe('put-back contact-open');
  });

  it('can be put back at any time, and only if it is in place', () => {
    const call = open().read('27').act().must({ type: 'put-back', item: 'jumper K1~K2' }).send({ type: 'put-back', item: 'jumper K1~K2' });
    expect(call.view.putBack).toEqual([]);
    expect(call.refusals.at(-1)).toEqual({ code: 'not-in-place', item: 'jumper K1~K2' });
  });

  it('stays when the walk steps back, and the step says what it needs', () => {
    const call = toCoil().must({ type: 'stepped-back', to: 5 }).readCautions();
    expect(call.view.putBack).toHaveLength(3);
    call.must({ type: 'put-back', item: 'setting main-power' });
    expect(call.view.unmet).toEqual([{ setting: 'main-power', state: 'off' }]);
    call.send({ type: 'read', typed: '0' });
    expect(call.refusals.at(-1)?.code).toBe('setting-not-held');
    call.must({ type: 'did', does: 'turn main-power off' });
    expect(call.view.unmet).toEqual([]);
    call.send({ type: 'did', does: 'jumper L1 to N' });
    expect(call.refusals.at(-1)).toEqual({ code: 'not-an-act', text: 'jumper L1 to N' });
  });

  it('what was proved dead is forgotten when power changes', () => {
    const call = toCoil();
    expect(call.walk.snapshot.context.circuit.dead).toEqual([{ points: ['L1', 'N'], meterBefore: true, meterAfter: true }]);
    call.must({ type: 'put-back', item: 'setting main-power' });
    expect(call.walk.snapshot.context.circuit).toMatchObject({ dead: [], meterProved: false });
  });
});

describe('pausing, notes and jumps', () => {
  it('a paused walk takes nothing but notes and resuming', () => {
    const call = open().must({ type: 'paused' }, { type: 'noted', text: 'lunch' }).send({ type: 'read', typed: '27' });
    expect(call.refusals.at(-1)).toEqual({ code: 'paused' });
    call.must({ type: 'resumed' }).read('27');
    expect(call.view.notes).toEqual(['lunch']);
  });

  it('a jump leaves the order of the tree and is marked', () => {
    const call = open().must({ type: 'jumped', tree: 'dry-pad', step: 'water-runs' });
    expect(call.at).toBe('work water-runs');
    expect(call.view.path).toMatchObject([{ on: 'own' }, { step: 'power', on: 'jumped' }, { step: 'water-runs', jumped: true }]);
    call.send({ type: 'jumped', tree: 'dry-pad', step: 'nowhere' });
    expect(call.refusals.at(-1)).toEqual({ code: 'unknown-step', step: 'dry-pad/nowhere' });
  });

  it('nothing is taken before it is opened, nor after it is closed', () => {
    const call = new WalkDriver(edition).send({ type: 'noted', text: 'early' });
    expect(call.refusals).toEqual([{ code: 'not-opened' }]);
    const done = open().read('27').must({ type: 'could-not' }, { type: 'went-on' }, { type: 'closed' }).send({ type: 'noted', text: 'late' });
    expect(done.refusals.at(-1)).toEqual({ code: 'closed' });
  });

  it('what is no event is refused with its place', () => {
    const call = open().send({ type: 'read' }).send('read').send({ type: 'sudo' });
    expect(call.refusals.map((r) => r.code)).toEqual(['not-an-event', 'not-an-event', 'not-an-event']);
  });

  it('half of a character is no text, and nothing is lost by it', () => {
    const call = open()
      .send({ type: 'noted', text: 'wet \ud83d' })
      .send({ type: 'read', typed: '2\udca7' })
      .must({ type: 'noted', text: 'wet \ud83d\udca7' });
    expect(call.refusals.map((r) => r.code)).toEqual(['not-an-event', 'not-an-event']);
    expect(call.view.notes).toEqual(['wet \ud83d\udca7']);
  });
});
