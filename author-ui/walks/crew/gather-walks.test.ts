import { expect, test } from 'vitest';
import { failure, success } from '../../../engine/result.ts';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import type { WalkSource } from '../source/walk-source.ts';
import { type Gathered, gatherWalks } from './gather-walks.ts';

const summary = (walk: string, more: Partial<WalkSummary> = {}): WalkSummary => ({
  walk,
  edition: 'e',
  person: 'p',
  personName: 'Tam',
  drill: false,
  last: '',
  arrived: '',
  length: 1,
  lines: 1,
  told: 1,
  closed: true,
  flags: [],
  ...more,
});

function source(place: 'hub' | 'here', pages: readonly (readonly WalkSummary[])[], asked: object[] = []): WalkSource {
  return {
    place,
    list: async (filter, after) => {
      asked.push(filter);
      const at = Number(after ?? 0);
      return success({ walks: pages[at] ?? [], ...(at + 1 < pages.length && { next: String(at + 1) }) });
    },
    log: async (walk) => (walk === 'gone' ? failure({ code: 'no-signal' }) : success({ summary: summary(walk), lines: [walk], aside: [] })),
    said: async () => success([]),
    say: async () => failure({ code: 'no-signal' }),
    confirmedFaults: async () => success([]),
  };
}

const EDITION = {} as never;

async function gathered(sources: readonly WalkSource[], stopAfter = Number.POSITIVE_INFINITY): Promise<{ told: Gathered[]; reviewed: unknown[] }> {
  const told: Gathered[] = [];
  const reviewed: unknown[] = [];
  await gatherWalks(
    {},
    {
      sources,
      find: async (hash) => (hash === 'e' ? EDITION : undefined),
      review: async ({ walk, confirmation }) => {
        reviewed.push([walk, confirmation]);
        return walk === 'broken' ? failure('broken') : success({ walk } as never);
      },
      stopped: () => reviewed.length >= stopAfter,
    },
    (now) => told.push(now),
  );
  return { told, reviewed };
}

test('every page of every source is gone through, a walk that both have once', async () => {
  const { told, reviewed } = await gathered([
    source('hub', [[summary('a'), summary('b', { confirmation: { held: true } })], [summary('c')]]),
    source('here', [[summary('a'), summary('d')]]),
  ]);
  expect(reviewed).toEqual([
    ['a', undefined],
    ['b', { held: true }],
    ['c', undefined],
    ['d', undefined],
  ]);
  expect(told.at(-1)).toMatchObject({ found: 4, done: true, left: { away: 0, editionless: 0, failed: 0 } });
});

test('what could not be taken is counted by why', async () => {
  const { told } = await gathered([source('hub', [[summary('gone'), summary('broken'), summary('x', { edition: 'other' })]])]);
  expect(told.at(-1)).toMatchObject({ reviewed: [], left: { away: 1, editionless: 1, failed: 1 }, done: true });
});

test('what this browser could not read is not counted as the hub’s', async () => {
  const locked: WalkSource = { ...source('here', []), list: async () => failure({ code: 'browser-storage', detail: '' }) };
  const { told } = await gathered([locked]);
  expect(told.at(-1)).toMatchObject({ left: { away: 0, unread: 1 }, done: true });
});

test('drills are left out unless they are asked for', async () => {
  const asked: object[] = [];
  await gathered([source('hub', [[]], asked)]);
  expect(asked).toEqual([{ drill: 'no' }]);
});

test('stopped, it says no more', async () => {
  const { told, reviewed } = await gathered([source('hub', [[summary('a'), summary('b'), summary('c')]])], 1);
  expect(reviewed).toHaveLength(1);
  expect(told.some(({ done }) => done)).toBe(false);
});
