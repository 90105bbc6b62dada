import { expect, it } from 'vitest';
import { type Result, success } from '../../engine/result.ts';
import { beginDrill } from '../../engine/review/index.ts';
import { groundOn } from '../../tests/drill/drill-grounds.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import { type Pending, pending } from '../walk/pending.ts';
import { DrillSession } from './drill-session.ts';
import { walkOfDrill } from './walk-of-drill.ts';

const stamp = () => ({ time: '2026-01-15T09:00:00.000Z', mono: 1 });

it('a press on the walk waits for a reading of the meter that is still being written', async () => {
  const writes: Pending<Result<void, StorageProblem>>[] = [];
  const keep = (): Promise<Result<void, StorageProblem>> => {
    const write = pending<Result<void, StorageProblem>>();
    writes.push(write);
    return write.promise;
  };
  const ground = groundOn('condensate-or-float-switch-holds-off', 'condensate-safeties', { fault: 'float-stuck', order: 'tree' });
  const opened = DrillSession.open(ground.edition, beginDrill(ground, 'run-1', stamp()).record, { store: { keep }, stamp });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  const drill = opened.value;
  const walk = walkOfDrill(drill);
  const read = drill.send({ do: 'measure', takes: 'ac-voltage', across: ['R', 'C'] });
  const noted = walk.send({ type: 'noted', text: 'The pump hums.' });
  expect(writes).toHaveLength(1);
  writes[0]?.resolve(success(undefined));
  expect(await read).toBe(true);
  await expect.poll(() => writes.length).toBe(2);
  writes[1]?.resolve(success(undefined));
  expect(await noted).toBe(true);
  expect(walk.state()).toMatchObject({ writing: false, view: { notes: ['The pump hums.'] } });
  expect(drill.state().run.record.lines.map(({ move }) => move.do)).toEqual(['measure', 'walk']);
});
