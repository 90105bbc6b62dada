import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { failure, type Result, success } from '../../engine/result.ts';
import { beginDrill, type DrillMove, readDrillRecord } from '../../engine/review/index.ts';
import { groundOn } from '../../tests/drill/drill-grounds.ts';
import { FieldDb } from '../storage/field-db.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import { pending } from '../walk/pending.ts';
import { DrillSession } from './drill-session.ts';
import { drillStore } from './drill-store.ts';

const TREE = 'condensate-or-float-switch-holds-off';
const ground = () => groundOn(TREE, 'condensate-safeties', { fault: 'float-stuck' });
const stamp = () => ({ time: '2026-01-15T09:00:00.000Z', mono: 1 });
const READ: DrillMove = { do: 'measure', takes: 'ac-voltage', across: ['R', 'C'] };
const OHMS: DrillMove = { do: 'measure', takes: 'resistance', across: ['R', 'C'] };

let count = 0;

function opened(store: Parameters<typeof DrillSession.open>[2]['store']): DrillSession {
  const { edition } = ground();
  const session = DrillSession.open(edition, beginDrill(ground(), 'run-1', stamp()).record, { store, stamp });
  if (!session.ok) throw new Error(JSON.stringify(session.problem));
  return session.value;
}

describe('a drill on the screen', () => {
  it('writes each move before it shows it, and goes on from what is stored', async () => {
    const store = drillStore(new FieldDb(`drill-${count++}`));
    const session = opened(store);
    const shown: number[] = [];
    session.subscribe(() => shown.push(session.state().run.record.lines.length));
    expect(await session.send(READ)).toBe(true);
    expect(shown).toEqual([0, 1]);
    const stored = await store.record('run-1');
    const record = readDrillRecord(stored.ok && stored.value);
    if (!record.ok) throw new Error('not stored');
    const again = DrillSession.open(ground().edition, record.value, { store, stamp });
    expect(again.ok && again.value.state().run.display).toEqual(session.state().run.display);
  });

  it('writes and tells what safety forbids; tells what means nothing', async () => {
    const kept: number[] = [];
    const session = opened({ keep: async ({ lines }) => success(void kept.push(lines.length)) });
    expect(await session.send(OHMS)).toBe(false);
    expect(session.state()).toMatchObject({
      trouble: { kind: 'refused', refusal: { code: 'unsafe' } },
      run: { record: { lines: [{ refused: 'resistance-while-live' }] } },
    });
    expect(await session.send({ do: 'look', sign: 'no-sign' })).toBe(false);
    expect(kept).toEqual([1]);
    session.forgetTrouble();
    expect(session.state().trouble).toBeUndefined();
  });

  it('stays where it was when the device cannot keep the move', async () => {
    const session = opened({ keep: async () => failure({ code: 'out-of-space' }) });
    expect(await session.send(READ)).toBe(false);
    expect(session.state()).toMatchObject({ writing: false, trouble: { kind: 'not-stored' }, run: { record: { lines: [] } } });
    expect(session.state().run.display).toBeUndefined();
  });

  it('takes no second move while one is being written, and none that another tab has gone past', async () => {
    const db = new FieldDb(`drill-${count++}`);
    const session = opened(drillStore(db));
    const [first, second] = await Promise.all([session.send(READ), session.send(READ)]);
    expect([first, second]).toEqual([true, false]);
    const other = opened(drillStore(db));
    expect(await other.send(READ)).toBe(false);
    expect(other.state()).toMatchObject({ trouble: { kind: 'not-stored', problem: { code: 'written-elsewhere' } } });
  });

  it('stays with the tab that took it over while a move was being written', async () => {
    const written = pending<Result<void, StorageProblem>>();
    const session = opened({ keep: () => written.promise });
    const sent = session.send(READ);
    session.goAway();
    written.resolve(failure({ code: 'out-of-space' }));
    expect(await sent).toBe(false);
    expect(session.state()).toMatchObject({ away: true, writing: false, trouble: { kind: 'not-stored' } });
  });

  it('does not open on another edition', () => {
    const { edition } = groundOn('control-fuse-blows', 'fuse-and-its-leads');
    expect(
      DrillSession.open(edition, beginDrill(ground(), 'run-1', stamp()).record, { store: { keep: async () => success(undefined) }, stamp }).ok,
    ).toBe(false);
  });
});
