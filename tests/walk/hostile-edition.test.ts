import { describe, expect, it } from 'vitest';
import { beginWalk, editionHash, readEdition, replayLog, takeEvent, viewOf, walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';

// Editions and logs come from outside: whatever is in them, they are refused or walked, and never take the app down.

/** A small linear congruential generator (Numerical Recipes' constants), so that a failure can be had again. */
function dice(seed: number): (sides: number) => number {
  let state = seed >>> 0;
  return (sides) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * sides);
  };
}

const ODD: readonly unknown[] = [
  null,
  0,
  -1,
  1e308,
  '',
  'constructor',
  '__proto__',
  'a b',
  [],
  {},
  true,
  'OL',
  '../x',
  '<script>',
  'half of a character \ud83d',
  'below 2 V',
  ['x', 'y'],
  { step: 'power' },
];

/** Changes one place, somewhere in a JSON value. */
function damaged(value: unknown, roll: (sides: number) => number): unknown {
  const copy: unknown = JSON.parse(JSON.stringify(value));
  let at: unknown = copy;
  for (;;) {
    if (typeof at !== 'object' || at === null) return copy;
    const record = at as Record<string, unknown>;
    const keys = Object.keys(record);
    const key = keys[roll(keys.length)];
    if (key === undefined) return copy;
    const inner = record[key];
    if (typeof inner !== 'object' || inner === null || roll(6) === 0) {
      if (roll(3) === 0) delete record[key];
      else record[key] = ODD[roll(ODD.length)];
      return copy;
    }
    at = inner;
  }
}

const stamp = { time: '2026-01-15T09:00:00Z', mono: 0 };

describe('hostile editions', () => {
  it('4,000 damaged editions are refused with a reason, or can be walked', () => {
    const roll = dice(8);
    const sound = smallEdition();
    let refused = 0;
    for (let n = 0; n < 4000; n += 1) {
      const read = readEdition(damaged(sound, roll));
      if (!read.ok) {
        refused += 1;
        expect(read.problem.code).not.toBe('');
        continue;
      }
      let walk = beginWalk(walkableEdition(read.value), 'w');
      for (const event of [
        { type: 'opened' },
        { type: 'caution-read', caution: 0 },
        { type: 'went-on' },
        { type: 'told', fact: 'wiring', typed: 'own' },
        { type: 'went-on' },
        { type: 'read', typed: '27' },
      ]) {
        const taken = takeEvent(walk, event, stamp);
        if (taken.ok) walk = taken.value.walk;
      }
      expect(viewOf(walk).phase).not.toBe('');
    }
    expect(refused).toBeGreaterThan(1000);
    expect(refused).toBeLessThan(4000);
  });

  it('names that objects have by birth are names like any other', () => {
    const edition = JSON.parse(JSON.stringify(smallEdition()).replaceAll('"main-power"', '"constructor"').replaceAll('coil-rated', 'tostring'));
    const read = readEdition(edition);
    if (!read.ok) throw new Error(JSON.stringify(read.problem));
    const call = new WalkDriver(read.value).open().tell('wiring', 'own').read('27.4').act().look('dry').act();
    expect(call.view.putBack.map((item) => item.key)).toContain('setting constructor');
  });

  it('an edition is named by what is in it', () => {
    const other = smallEdition();
    other.root = 'supply';
    expect(editionHash(other)).not.toBe(editionHash(smallEdition()));
  });
});

describe('hostile logs', () => {
  it('3,000 damaged logs replay to a walk and, where they were touched, to a named break', () => {
    const roll = dice(9);
    const edition = walkableEdition(smallEdition());
    const { lines } = new WalkDriver(edition).open().tell('wiring', 'own').read('27.4').act().look('dry').act().read('0.0').act().read('OL');
    for (let n = 0; n < 3000; n += 1) {
      const log = damaged(lines, roll);
      const replay = replayLog(edition, Array.isArray(log) ? log : []);
      const whole = JSON.stringify(log) === JSON.stringify(lines.slice(0, Array.isArray(log) ? log.length : 0));
      expect(replay.brokenAt === undefined).toBe(whole);
      expect(replay.walk.length).toBeLessThanOrEqual(lines.length);
    }
  });
});
