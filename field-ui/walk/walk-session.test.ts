import { describe, expect, it } from 'vitest';
import { failure, type Result, success } from '../../engine/result.ts';
import { type Stamp, type WalkLine, walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import { WalkSession } from './walk-session.ts';

const edition = walkableEdition(smallEdition());
const atPower = () => new WalkDriver(edition).open().tell('wiring', 'own');

/** A store whose writes end when the test says so. */
class SlowStore {
  readonly lines: WalkLine[] = [];
  readonly waiting: { line: WalkLine; end(result: Result<void, StorageProblem>): void }[] = [];

  append = (_walk: unknown, line: WalkLine): Promise<Result<void, StorageProblem>> =>
    new Promise((resolve) => {
      this.waiting.push({
        line,
        end: (result) => {
          if (result.ok) this.lines.push(line);
          resolve(result);
        },
      });
    });

  end(result: Result<void, StorageProblem> = success(undefined)): void {
    this.waiting.shift()?.end(result);
  }
}

let ticks = 0;
const stamp = (): Stamp => ({ time: '2026-01-15T10:00:00.000+00:00', mono: 1_000_000 + ticks++ });

function open(lines: readonly unknown[] = atPower().lines) {
  const store = new SlowStore();
  return { store, session: new WalkSession(edition, lines, { store, stamp }) };
}

describe('a session', () => {
  it('stands where its log stands', () => {
    const { session } = open();
    expect(session.state().view).toMatchObject({ phase: 'work', step: { id: 'power' } });
    expect(session.state().expects.has('read')).toBe(true);
    expect(session.state().gauge?.step.takes).toBe('ac-voltage');
  });

  it('moves only after the line is on the disk', async () => {
    const { store, session } = open();
    const sent = session.send({ type: 'read', typed: '27.4' });
    expect(session.state()).toMatchObject({ writing: true, view: { phase: 'work' } });
    expect(store.waiting).toHaveLength(1);
    store.end();
    expect(await sent).toBe(true);
    expect(session.state()).toMatchObject({ writing: false, view: { phase: 'verdict' } });
    expect(session.state().lines.at(-1)).toEqual(store.lines[0]);
  });

  it('takes nothing while a line is being written', async () => {
    const { store, session } = open();
    const first = session.send({ type: 'read', typed: '27.4' });
    expect(await session.send({ type: 'noted', text: 'too soon' })).toBe(false);
    expect(store.waiting).toHaveLength(1);
    store.end();
    await first;
    expect(session.state().view.notes).toEqual([]);
  });

  it('keeps photos that are ready while a line is being written, one after the other', async () => {
    const { store, session } = open();
    const read = session.send({ type: 'read', typed: '27.4' });
    const photos = ['photo-1', 'photo-2'].map((photo) => session.send({ type: 'photographed', photo }));
    expect(store.waiting).toHaveLength(1);
    for (const ended of [read, ...photos]) {
      store.end();
      expect(await ended).toBe(true);
    }
    expect(session.state().view.photos).toMatchObject([{ photo: 'photo-1' }, { photo: 'photo-2' }]);
    expect(store.lines.map(({ event }) => event.type)).toEqual(['read', 'photographed', 'photographed']);
  });

  it('keeps no photo that is ready once the page was left', async () => {
    const { store, session } = open();
    const read = session.send({ type: 'read', typed: '27.4' });
    const photo = session.send({ type: 'photographed', photo: 'photo-1' });
    session.goAway();
    store.end();
    expect([await read, await photo]).toEqual([true, false]);
    expect(store.waiting).toEqual([]);
  });

  it.each<StorageProblem>([{ code: 'out-of-space' }, { code: 'written-elsewhere' }, { code: 'not-available', detail: 'x' }])(
    'shows nothing as entered that was not stored: $code',
    async (problem) => {
      const { store, session } = open();
      const before = session.state();
      const sent = session.send({ type: 'read', typed: '27.4' });
      store.end(failure(problem));
      expect(await sent).toBe(false);
      const after = session.state();
      expect([after.walk === before.walk, after.view === before.view, after.lines === before.lines]).toEqual([true, true, true]);
      expect(after.trouble).toEqual({ kind: 'not-stored', problem });
      // And the same entry is taken once the device can keep it, with the number that the lost one would have had.
      const again = session.send({ type: 'read', typed: '27.4' });
      store.end();
      expect(await again).toBe(true);
      expect(store.lines.map(({ seq }) => seq)).toEqual([before.walk.length]);
      expect(session.state().trouble).toBeUndefined();
    },
  );

  it('writes nothing that the walk refuses, and says why', async () => {
    const { store, session } = open();
    expect(await session.send({ type: 'read', typed: 'abc' })).toBe(false);
    expect(store.waiting).toEqual([]);
    expect(session.state().trouble).toMatchObject({ kind: 'refused', refusal: { code: 'not-readable' } });
    session.forgetTrouble();
    expect(session.state().trouble).toBeUndefined();
  });

  it('tells its listeners of every change', async () => {
    const { store, session } = open();
    const seen: boolean[] = [];
    const leave = session.subscribe(() => seen.push(session.state().writing));
    const sent = session.send({ type: 'read', typed: '27.4' });
    store.end();
    await sent;
    leave();
    session.goAway();
    expect(seen).toEqual([true, false]);
  });

  it('takes nothing once another tab has the walk', async () => {
    const { store, session } = open();
    session.goAway();
    expect(await session.send({ type: 'read', typed: '27.4' })).toBe(false);
    expect(store.waiting).toEqual([]);
  });

  it('stops at a line that was changed, keeps what is stored as it is, and takes nothing more', async () => {
    const lines: unknown[] = atPower().lines.map((line, index) => (index === 2 ? { ...line, time: '2020-01-01T00:00:00.000+00:00' } : line));
    lines.push('not a line at all');
    const { store, session } = open(lines);
    expect(session.state().broken).toEqual({ code: 'line-changed', line: 2, seq: 2 });
    expect(session.state().walk.length).toBe(2);
    expect(session.state().stored).toEqual(lines);
    expect(await session.send({ type: 'read', typed: '27.4' })).toBe(false);
    expect(store.waiting).toEqual([]);
  });
});
