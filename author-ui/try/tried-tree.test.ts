import { describe, expect, test } from 'vitest';
import type { Step } from '../../engine/tree/index.ts';
import { buildEdition } from '../../engine/walk/index.ts';
import { blankTree } from '../edit/blank-tree.ts';
import { shippedEdition } from './testing/shipped-sources.ts';
import { TriedTree } from './tried-tree.ts';
import { AS_FOUND, type TryMove, type TrySetup } from './try-state.ts';

const NAME = 'no-water-at-the-pad';
const tree = new TriedTree(shippedEdition(NAME));
const setup = (change: Partial<TrySetup> = {}): TrySetup => ({
  bench: 'own-transformer',
  fault: 'coil-open',
  facts: {},
  from: undefined,
  begin: AS_FOUND,
  ...change,
});
const FOLLOW: TryMove = { do: 'follow' };
const SHOWN: TryMove = { do: 'as-shown' };
const read = (typed: string): TryMove => ({ do: 'event', event: { type: 'read', typed } });

describe('following the bench', () => {
  test('every fault of every bench that the tree names ends at a finding that names it, and a sound circuit at one that names none', () => {
    const offer = tree.offer();
    for (const [bench, { faults }] of Object.entries(offer.benches)) {
      for (const fault of [undefined, ...Object.keys(faults)]) {
        const { end, step } = tree.state(setup({ bench, fault }), [FOLLOW]);
        expect([bench, fault, step.kind, end?.how]).toEqual([bench, fault, 'finding', 'right']);
      }
    }
  });

  test('comes apart into its moves, which can be taken back one by one', () => {
    const whole = tree.state(setup(), [FOLLOW]);
    expect(whole.taken.length).toBeGreaterThan(14);
    expect(whole.taken.every((move) => move.do === 'as-shown')).toBe(true);
    const back = tree.state(setup(), whole.taken.slice(0, -1));
    expect(back.phase).toBe('verdict');
    expect(tree.state(setup(), [...back.taken, SHOWN]).path).toEqual(whole.path);
  });

  test('what was turned, bridged and lifted on the way is to be put back, and the recheck is on a repaired circuit', () => {
    const found = tree.state(setup(), [FOLLOW]);
    expect(found.putBack.map(({ kind }) => kind)).toEqual(['lifted', 'setting']);
    let now = found;
    const phases = new Set<string>();
    for (let moves = 0; moves < 20 && now.phase !== 'closed'; moves += 1) {
      phases.add(now.phase);
      now = tree.state(setup(), [...now.taken, SHOWN]);
      expect(now.refused).toBeUndefined();
    }
    expect([...phases]).toEqual(['finding', 'repair', 'put-back', 'recheck', 'closing']);
    expect(now).toMatchObject({ outcome: 'fixed', putBack: [], end: { how: 'right' } });
    expect(now.situation?.faults).toEqual([]);
  });
});

describe('another answer than the bench gives', () => {
  const atPower = tree.state(
    setup(),
    Array.from({ length: 8 }, () => SHOWN),
  );

  test('a reading that is typed is judged by the same bands, and may end at a wrong finding', () => {
    expect(atPower.at.step).toBe('power-at-r-and-c');
    expect(atPower.shows).toMatchObject({ kind: 'reading', shown: '26.9 V' });
    const low = tree.state(setup(), [...atPower.taken, read('3.1 V')]);
    expect(low.verdict?.on).toBe('below 85 % of coil-rated');
    const end = tree.state(setup(), [...low.taken, FOLLOW]);
    expect(end.end?.how).not.toBe('right');
  });

  test('what cannot be read as a value is refused with a reason, and nothing moves', () => {
    const refused = tree.state(setup(), [...atPower.taken, read('lots')]);
    expect(refused.refused?.message).toContain('lots');
    expect(refused.taken).toEqual(atPower.taken);
    expect(refused.at).toEqual(atPower.at);
  });

  test('moves behind one that a changed tree refuses are kept count of, not lost', () => {
    const { refused, dropped } = tree.state(setup(), [...atPower.taken, read('lots'), SHOWN, SHOWN]);
    expect([refused !== undefined, dropped]).toEqual([true, 2]);
  });
});

describe('from a step in the middle', () => {
  const key = (step: string): string => `${NAME}/${step}`;

  test('begins on the shortest way that the bench leads there, with what that way did to the circuit', () => {
    const { start, at, path, situation, shows } = tree.state(setup({ from: key('coil-resistance') }), []);
    expect(start).toEqual({ how: 'followed', steps: path.length - 1 });
    expect(at.step).toBe('coil-resistance');
    expect(situation?.settings['main-power']).toBe('off');
    expect(situation?.lifted).toHaveLength(1);
    expect(shows).toMatchObject({ kind: 'reading', shown: 'OL' });
  });

  test('where no walk on the bench comes there it says so, and the circuit is as the author sets it', () => {
    const from = key('coil-resistance');
    const here = tree.state(setup({ fault: 'cock-shut', from }), []);
    expect(here).toMatchObject({ start: { how: 'set' }, at: { step: 'coil-resistance' }, path: [{ step: 'coil-resistance' }] });
    // Power is on as found: an ohms reading is refused as it would be on a walk.
    const live = tree.state(setup({ fault: 'cock-shut', from }), [read('30')]);
    expect(live.refused).toBeDefined();
    const begin = { ...AS_FOUND, settings: { 'main-power': 'off' }, lifted: ['coil'], dead: true };
    const dead = tree.state(setup({ fault: 'cock-shut', from, begin }), [read('30')]);
    expect(dead.refused).toBeUndefined();
    expect(dead.verdict?.leadsTo).toBe('Valve stuck');
    expect(dead.putBack.map((item) => item.key)).toEqual(expect.arrayContaining(['setting main-power']));
  });
});

test('a fact that the author sets is the house’s and is told: the meter and the bands follow', () => {
  const path = (facts: TrySetup['facts']) => tree.state(setup({ facts }), [FOLLOW]).path.find(({ step }) => step === 'power-at-r-and-c');
  const [usual, low] = [path({}), path({ 'line-volts': '110 V' })];
  // A transformer's secondary follows its primary: 110 of 120 V (the turns ratio is the same).
  expect(Number.parseFloat(low?.typed ?? '') / Number.parseFloat(usual?.typed ?? '')).toBeCloseTo(110 / 120, 2);
  expect(tree.state(setup({ facts: { 'line-volts': 'a lot' } }), []).factProblems).toHaveProperty('line-volts');
});

describe('a tree without a bench', () => {
  const seen = (saw: string): TryMove => ({ do: 'event', event: { type: 'looked', saw } });
  const none = setup({ bench: undefined, fault: undefined });
  /** The blank tree, with a second look that leads back to the first. */
  function bare(): TriedTree {
    const blank = blankTree('bell', 'Bell');
    const [first, ...others] = blank.steps;
    if (first?.kind !== 'look') throw new Error('a look');
    const again: Step = {
      ...first,
      id: 'again',
      title: 'Again',
      ways: [
        { on: 'not yet', to: { step: first.id } },
        { on: 'works', to: { step: 'nothing-wrong-found' } },
      ],
    };
    const ways = [...first.ways, { on: 'at times', to: { step: 'again' } }];
    const made = buildEdition('bell', { trees: { bell: { ...blank, steps: [{ ...first, ways }, again, ...others] } }, benches: {}, figures: {} });
    if (!made.ok) throw new Error(made.problem.code);
    return new TriedTree(made.value);
  }

  test('is walked with what the author says', () => {
    expect(bare().state(none, []).shows).toEqual({ kind: 'untold', why: 'no-bench' });
    expect(bare().state(none, [FOLLOW]).refused).toBeDefined();
    expect(bare().state(none, [seen('works'), SHOWN]).end).toEqual({ how: 'right', names: [] });
    expect(bare().state(none, [seen('does not'), SHOWN]).end).toEqual({ how: 'handed-off', to: 'the senior tech' });
  });

  test('is stuck where it comes to a step again with nothing changed', () => {
    const { end, at } = bare().state(none, [seen('at times'), SHOWN, seen('not yet'), SHOWN]);
    expect([at.step, end]).toEqual(['try-the-complaint', { how: 'round' }]);
  });
});
