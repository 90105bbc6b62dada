import { expect, test } from 'vitest';
import { walkableEdition } from '../../../engine/walk/index.ts';
import { smallEdition } from '../../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../../engine/walk/testing/walk-driver.ts';
import { mergedLog, readOpened } from './read-opened.ts';
import { minutesOf, sumUpLog } from './sum-up-log.ts';

const EDITION = smallEdition();
const WALKABLE = walkableEdition(EDITION);

function closedCall(id: string) {
  const driver = new WalkDriver(WALKABLE, id);
  driver.must({ type: 'opened', by: 'Tam Tech', site: '12 Elm' }).readCautions().must({ type: 'went-on' });
  driver.tell('wiring', 'own').read('27').act().look('runs');
  driver.must({ type: 'found' }, { type: 'repaired', done: true }).putAllBack();
  return driver.must({ type: 'rechecked', saw: 'runs' }, { type: 'closed' }).lines;
}

const text = (lines: readonly unknown[]): string => lines.map((line) => JSON.stringify(line)).join('\n');

test('a file of two logs is two walks, whatever it is called', () => {
  const [a, b] = [closedCall('a'), closedCall('b')];
  const opened = readOpened({ name: 'monday.txt', text: text([...a, ...b]) });
  expect(opened).toMatchObject({
    is: 'logs',
    logs: [
      { walk: 'a', lines: a },
      { walk: 'b', lines: b },
    ],
  });
});

test('an edition is known by what it holds, and something else as neither', () => {
  expect(readOpened({ name: 'x', text: JSON.stringify(EDITION) })).toMatchObject({ is: 'edition', hash: WALKABLE.hash });
  expect(readOpened({ name: 'x', text: 'hello' })).toEqual({ file: 'x', is: 'neither' });
  expect(readOpened({ name: 'x' })).toEqual({ file: 'x', is: 'unreadable' });
  expect(readOpened({ name: 'x', text: '{}' })).toMatchObject({ is: 'neither', problem: { code: 'not-an-edition' } });
});

test('a second line for one place is kept aside', () => {
  const lines = closedCall('a');
  const opened = readOpened({ name: 'x', text: text([...lines, { ...lines[3], hash: 'other' }]) });
  expect(opened.is === 'logs' && opened.logs[0]?.lines).toHaveLength(lines.length);
  expect(opened.is === 'logs' && opened.logs[0]?.aside).toHaveLength(1);
});

test('a longer copy takes the place of a shorter one; one that contradicts it is kept beside it', () => {
  const lines = closedCall('a');
  const short = { lines: lines.slice(0, 4), aside: [] };
  expect(mergedLog(short, { lines, aside: [] })).toEqual({ lines, aside: [] });
  expect(mergedLog({ lines, aside: [] }, short)).toEqual({ lines, aside: [] });
  const other = { ...lines[2], time: '2026-01-15T10:00:00.000Z' };
  expect(mergedLog({ lines, aside: [] }, { lines: [...lines.slice(0, 2), other], aside: [] })).toEqual({ lines, aside: [other] });
});

test('a log is summed up as the hub does; without its edition only what its lines say is known', () => {
  const log = { lines: closedCall('a'), aside: [] };
  expect(sumUpLog(log, WALKABLE, '2026-02-01T00:00:00Z')).toMatchObject({
    walk: 'a',
    by: 'Tam Tech',
    tree: EDITION.root,
    closed: true,
    outcome: 'fixed',
    minutes: (log.lines.length - 1) / 60,
    flags: [],
  });
  expect(sumUpLog(log, undefined, '')).toMatchObject({ closed: true, flags: ['unknown-edition'] });
  expect(sumUpLog({ lines: ['nothing'], aside: [] }, WALKABLE, '')).toBeUndefined();
  const broken = [...log.lines.slice(0, 3), { ...log.lines[3], seq: 9 }];
  expect(sumUpLog({ lines: broken, aside: [] }, WALKABLE, '')?.flags).toEqual(['does-not-replay']);
});

test('pauses are taken out of the minutes', () => {
  const at = (seconds: number, type: 'noted' | 'paused' | 'resumed') =>
    ({ time: new Date(seconds * 1000).toISOString(), mono: seconds * 1000, event: type === 'noted' ? { type, text: '' } : { type } }) as never;
  expect(minutesOf([at(0, 'noted'), at(60, 'paused'), at(600, 'resumed'), at(660, 'noted')])).toBe(2);
});
