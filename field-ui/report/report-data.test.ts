import { expect, it } from 'vitest';
import { type WalkLine, walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { reportData } from './report-data.ts';

const edition = walkableEdition(smallEdition());

/** The same lines on a clock of so many minutes an entry; their hashes are not looked at here. */
const spaced = (lines: readonly WalkLine[], minutes: number): readonly WalkLine[] =>
  lines.map((line, index) => ({ ...line, time: new Date(Date.UTC(2026, 0, 15, 9, index * minutes)).toISOString() }));

it('tells who, where, and each thing put back with its time', () => {
  const call = new WalkDriver(edition).must({ type: 'opened', by: 'R. Alder', site: 'Elm Street 12' }).readCautions().must({ type: 'went-on' });
  call.tell('wiring', 'own').read('27').act().look('runs').must({ type: 'found' }, { type: 'repaired', done: true }).putAllBack();
  const data = reportData(call.walk, call.lines);
  expect(data).toMatchObject({ by: 'R. Alder', site: 'Elm Street 12', cautionsRead: 1, reasons: [] });
  expect(data.putBack).toEqual([{ item: { key: 'jumper K1~K2', kind: 'jumper', from: 'K1', to: 'K2' }, time: call.lines.at(-1)?.time }]);
});

it('keeps the reasons why a step could not be done', () => {
  const call = new WalkDriver(edition).open().tell('wiring', 'own').must({ type: 'could-not', why: 'no key' });
  expect(reportData(call.walk, call.lines).reasons).toEqual(['no key']);
});

it('counts the time between entries, and not that of a pause', () => {
  const call = new WalkDriver(edition).open().tell('wiring', 'own');
  const worked = call.lines.length - 1;
  expect(reportData(call.walk, spaced(call.lines, 10)).minutes).toBe(worked * 10);
  call.must({ type: 'paused' }, { type: 'noted', text: 'lunch' }, { type: 'resumed' }, { type: 'read', typed: '27' });
  // To the pause and from the end of it count; the two entries in it do not.
  expect(reportData(call.walk, spaced(call.lines, 10)).minutes).toBe((worked + 2) * 10);
  expect(reportData(call.walk, call.lines.slice(0, 1)).minutes).toBe(1);
});
