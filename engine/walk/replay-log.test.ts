import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalHash } from './canonical-hash.ts';
import { logLines, replayLog } from './replay-log.ts';
import { smallEdition } from './testing/small-edition.ts';
import { WalkDriver } from './testing/walk-driver.ts';
import { viewOf } from './view-of.ts';
import { walkableEdition } from './walk.ts';

const edition = walkableEdition(smallEdition());
const whole = () => new WalkDriver(edition).open().tell('wiring', 'own').read('27.4').act().look('dry').act().read('0.0').act().read('OL');

const SEED = 20260115;
const keys = [...edition.compiled.steps.keys()];

/** Anything that a tech, a bug or a forger might send: half of it makes no sense where it arrives. */
const anyEvent = fc.oneof(
  { weight: 3, arbitrary: fc.constant({ type: 'went-on' }) },
  { weight: 3, arbitrary: fc.record({ type: fc.constant('caution-read'), caution: fc.nat(2) }) },
  {
    weight: 3,
    arbitrary: fc.record({ type: fc.constant('read'), typed: fc.constantFrom('27.4', '0.1', 'OL', '18', '1.2k', '31', 'x', '', '118 V') }),
  },
  { weight: 2, arbitrary: fc.record({ type: fc.constant('looked'), saw: fc.constantFrom('runs', 'dry', 'blue') }) },
  { weight: 3, arbitrary: fc.constant({ type: 'did' }) },
  fc.record({ type: fc.constant('did'), does: fc.constantFrom('turn main-power on', 'turn main-power off', 'lift x', '') }),
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant('told'),
      fact: fc.constantFrom('wiring', 'coil-rated', 'line-volts', 'none'),
      typed: fc.constantFrom('own', '24', '120 V', 'x'),
    }),
  },
  fc.constant({ type: 'could-not' }),
  fc.record({ type: fc.constant('stepped-back'), to: fc.nat(8) }),
  fc.constantFrom(...keys).map((key) => ({ type: 'jumped', tree: key.split('/')[0], step: key.split('/')[1] })),
  fc.constantFrom({ type: 'paused' }, { type: 'resumed' }, { type: 'noted', text: 'n' }),
  {
    weight: 2,
    arbitrary: fc.constantFrom({ type: 'found' }, { type: 'repaired', done: true }, { type: 'repaired', done: false }, { type: 'closed' }),
  },
  {
    weight: 2,
    arbitrary: fc.record({ type: fc.constant('put-back'), item: fc.constantFrom('jumper K1~K2', 'lead coil-hot', 'setting main-power') }),
  },
  fc.record({ type: fc.constant('rechecked'), saw: fc.constantFrom('runs', 'dry') }),
);

const anyWalk = fc.array(anyEvent, { maxLength: 60 }).map((events) => {
  const call = new WalkDriver(edition).open();
  for (const event of events) call.send(event);
  return call;
});

describe('replay', () => {
  it('of any log gives the same walk', () => {
    fc.assert(
      fc.property(anyWalk, (call) => {
        // Through text and back, as a phone stores it.
        const replay = replayLog(edition, logLines(call.lines.map((line) => JSON.stringify(line)).join('\n')));
        expect(replay.problems).toEqual([]);
        expect(replay.walk.head).toBe(call.walk.head);
        expect(replay.walk.snapshot.value).toEqual(call.walk.snapshot.value);
        expect(replay.walk.snapshot.context).toEqual(call.walk.snapshot.context);
        expect(viewOf(replay.walk)).toEqual(call.view);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('names any line that was changed, and gives the walk as it stood before', () => {
    const { lines } = whole();
    for (const [index, line] of lines.entries()) {
      const forged = lines.map((l, i) => (i === index ? { ...l, time: '2026-01-15T10:00:00+01:00' } : l));
      const replay = replayLog(edition, forged);
      expect(replay.brokenAt).toBe(index);
      expect(replay.problems).toEqual([{ code: 'line-changed', line: index, seq: line.seq }]);
      expect(replay.walk.length).toBe(index);
      expect(replay.readable).toHaveLength(lines.length);
    }
  });

  it('names the line after one that was forged whole, hash and all', () => {
    const { lines } = whole();
    const at = lines.findIndex((l) => l.event.type === 'looked');
    const forged = lines.map((line, i) => {
      if (i !== at) return line;
      const { hash: _, ...unsealed } = { ...line, time: '2026-01-15T10:00:00Z' };
      return { ...unsealed, hash: canonicalHash(unsealed) };
    });
    expect(replayLog(edition, forged).problems).toEqual([{ code: 'chain-broken', line: at + 1, seq: at + 1 }]);
  });

  it('names a missing line, another walk, another edition and what is no line', () => {
    const { lines } = whole();
    expect(replayLog(edition, lines.toSpliced(3, 1)).problems).toEqual([{ code: 'seq-gap', line: 3, expected: 3, got: 4 }]);
    const other = new WalkDriver(edition, 'walk-2').open().lines;
    expect(replayLog(edition, [...lines.slice(0, 2), ...other.slice(2)]).problems).toEqual([
      { code: 'other-walk', line: 2, expected: 'walk-1', got: 'walk-2' },
    ]);
    const changed = smallEdition();
    changed.trees['dry-pad'] = { ...changed.trees['dry-pad'], title: 'Another edition' } as (typeof changed.trees)[string];
    expect(replayLog(walkableEdition(changed), lines).problems[0]?.code).toBe('other-edition');
    expect(replayLog(edition, [...lines.slice(0, 2), 'half a li', ...lines.slice(2)]).problems[0]).toMatchObject({ code: 'not-a-line', line: 2 });
  });

  it('refuses a well-sealed line that could not have happened', () => {
    const { lines } = new WalkDriver(edition).must({ type: 'opened' });
    const [first] = lines;
    if (!first) throw new Error('no line');
    const unsealed = { ...first, seq: 1, before: first.hash, event: { type: 'went-on' as const } };
    const { hash: _, ...rest } = unsealed;
    const replay = replayLog(edition, [first, { ...rest, hash: canonicalHash(rest) }]);
    expect(replay.problems).toEqual([{ code: 'refused', line: 1, seq: 1, refusal: { code: 'cautions-first', left: 1 } }]);
  });

  it('does not show a verdict that the edition does not give', () => {
    const call = new WalkDriver(edition).open().tell('wiring', 'own').must({ type: 'read', typed: '27.4' });
    const last = call.lines.at(-1);
    if (last?.event.type !== 'read' || !last.event.judged) throw new Error('no reading');
    const { hash: _, ...rest } = { ...last, event: { ...last.event, judged: { ...last.event.judged, on: 'otherwise' } } };
    const replay = replayLog(edition, [...call.lines.slice(0, -1), { ...rest, hash: canonicalHash(rest) }]);
    expect(replay.problems.map((p) => p.code)).toEqual(['judged-otherwise']);
  });

  it('of an empty log is a walk not yet opened', () => {
    expect(replayLog(edition, []).walk.length).toBe(0);
  });
});

describe('the machine and its reasons agree', () => {
  it('an event is logged exactly when the machine can take it, and refused with a reason otherwise', () => {
    fc.assert(
      fc.property(anyWalk, anyEvent, (call, event) => {
        const before = call.walk;
        const logged = call.lines.length;
        call.send(event);
        if (call.lines.length > logged) expect(call.walk.length).toBe(before.length + 1);
        else {
          expect(call.walk).toBe(before);
          expect(call.refusals.at(-1)?.code).toBeTruthy();
        }
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('no walk closes with anything still in place', () => {
    fc.assert(
      fc.property(anyWalk, (call) => {
        if (call.view.phase === 'closed') expect(call.view.putBack).toEqual([]);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});
