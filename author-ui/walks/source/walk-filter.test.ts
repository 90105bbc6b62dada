import { expect, test } from 'vitest';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import { filterQuery, hubQuery, isAskedFor, readFilter, withField } from './walk-filter.ts';

const HASH = 'a'.repeat(64);
const WALK: WalkSummary & { findingAt?: string } = {
  walk: 'w1',
  edition: HASH,
  tree: 'no-heat',
  person: 'Tam',
  personName: 'Tam',
  drill: false,
  opened: '2026-01-15T09:00:00.000Z',
  last: '2026-01-15T09:30:00.000Z',
  arrived: '2026-01-15T09:30:00.000Z',
  length: 3,
  lines: 3,
  told: 3,
  closed: true,
  finding: 'Coil open',
  outcome: 'fixed',
  flags: [],
};

test('a filter is read back from the address it makes', () => {
  const filter = { tree: 'no-heat', edition: HASH, outcome: 'fixed', from: '2026-01-01', confirmed: 'open' };
  expect(readFilter(filterQuery(filter))).toEqual(filter);
  expect(filterQuery({})).toBe('');
});

test('what no form offers is as if it were not in the address', () => {
  expect(readFilter('outcome=burnt&drill=maybe&from=yesterday&edition=12&person=%20&nothing=1')).toEqual({});
});

test('an emptied field is taken out', () => {
  expect(withField({ tree: 'no-heat', drill: 'yes' }, 'drill', '')).toEqual({ tree: 'no-heat' });
});

test('a list to a day has that day in it', () => {
  expect(hubQuery({ to: '2026-02-28' })).toEqual({ to: '2026-03-01' });
  expect(isAskedFor(WALK, { from: '2026-01-15', to: '2026-01-15' })).toBe(true);
  expect(isAskedFor(WALK, { to: '2026-01-14' })).toBe(false);
  expect(isAskedFor(WALK, { from: '2026-01-16' })).toBe(false);
});

test.each([
  [{ tree: 'other' }, false],
  [{ person: 'Tam', outcome: 'fixed', drill: 'no', flagged: 'no' }, true],
  [{ flagged: 'yes' }, false],
  [{ confirmed: 'open' }, true],
  [{ confirmed: 'yes' }, false],
  [{ finding: 'no-heat/coil' }, false],
])('%j shows a walk: %s', (filter, shown) => expect(isAskedFor(WALK, filter)).toBe(shown));

test('a confirmed walk is no longer open', () => {
  const held = { ...WALK, confirmation: { held: false } };
  expect(isAskedFor(held, { confirmed: 'no' })).toBe(true);
  expect(isAskedFor(held, { confirmed: 'open' })).toBe(false);
});
