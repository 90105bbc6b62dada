import { expect, test } from 'vitest';
import type { HubStanding } from './look-for-hub.ts';
import { standingAfter } from './standing-after.ts';

const since = '2026-01-15T09:00:00.000Z';

/** As a look brings it: every value made anew. */
const joined = (role: 'owner' | 'tech' = 'owner', seen = since): Extract<HubStanding, { state: 'joined' }> => ({
  state: 'joined',
  me: { person: { id: 'p1', name: 'M. Birch', role, since }, device: { id: 'd1', person: 'p1', kind: 'desk', label: 'Office', since, seen } },
});
const away: HubStanding = { state: 'away', problem: { code: 'no-signal' } };

test('where nothing has changed the standing is the one before', () => {
  const before = joined();
  expect(standingAfter(before, joined())).toBe(before);
});

test('a device that was seen later is another standing of the same person', () => {
  const before = joined();
  const after = standingAfter(before, joined('owner', '2026-01-15T10:00:00.000Z'));
  expect(after).toEqual(joined('owner', '2026-01-15T10:00:00.000Z'));
  expect('me' in after && after.me?.person).toBe(before.me.person);
});

test('another role is told', () => expect(standingAfter(joined(), joined('tech'))).toEqual(joined('tech')));

test('while the hub is away the desk is who it last was, and is so still when it is back', () => {
  const before = joined();
  const between = standingAfter(before, away);
  expect(between).toEqual({ ...away, me: before.me });
  expect(standingAfter(between, away)).toBe(between);
  const after = standingAfter(between, joined());
  expect(after).toEqual(joined());
  expect('me' in after && after.me).toBe(before.me);
});

test('who was never known is not made up', () => expect(standingAfter({ state: 'looking' }, away)).toBe(away));
