import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { AuditEntry, Invitation } from '../../shared/sync/wire/crew-wire.ts';
import { deedWords, invitationStanding, isOwnMachine } from './crew-page-words.ts';

const name = (id: string): string => (id === 'p2' ? 'R. Alder' : 'someone');
const words = (what: string, more: Partial<AuditEntry> = {}): string => deedWords({ id: 1, at: '', what, ...more }, name);

describe('what was done is told', () => {
  test.each<[string, string, Partial<AuditEntry>]>([
    ['joined as senior tech on a desk', 'joined', { details: { role: 'senior-tech', kind: 'desk' } }],
    ['made 3 invitations as tech', 'invited', { details: { role: 'tech', count: 3 } }],
    ['made one invitation as trainer', 'invited', { details: { role: 'trainer', count: 1 } }],
    ['made R. Alder trainer (was tech)', 'person-changed', { about: 'p2', details: { role: 'trainer', before: 'tech' } }],
    ['took R. Alder out of the crew', 'person-changed', { about: 'p2', details: { stopped: true } }],
    ['let R. Alder back into the crew', 'person-changed', { about: 'p2', details: { stopped: false } }],
    ['published no-heat, number 2', 'published', { details: { tree: 'no-heat', number: 2 } }],
    ['took back an edition of no-heat: wrong step', 'withdrawn', { details: { tree: 'no-heat', why: 'wrong step' } }],
    ['confirmed a walk’s finding, coil-open', 'confirmed', { details: { held: true, bench: 'b', fault: 'coil-open' } }],
    ['said that a walk’s finding did not hold', 'confirmed', { details: { held: false } }],
    ['took back what was said of a walk’s finding', 'confirmed', {}],
    ['gave a drill on no-heat', 'drill-given', { details: { tree: 'no-heat' } }],
  ])('%s', (told, what, more) => expect(words(what, more)).toBe(told));

  test('in words of its own for each deed that the hub writes down', () => {
    const source = readFileSync(fileURLToPath(new URL('../../shared/crew/store/audit-store.ts', import.meta.url)), 'utf8');
    const deeds = [...(/export type Deed =([^;]*);/.exec(source)?.[1] ?? '').matchAll(/'([a-z-]+)'/g)].map(([, deed]) => deed ?? '');
    expect(deeds.length).toBeGreaterThan(10);
    for (const deed of deeds) expect(words(deed), deed).not.toBe(deed.replaceAll('-', ' '));
  });

  test('as it is written, where a newer hub has a deed that this desk does not know', () => expect(words('tea-made')).toBe('tea made'));
});

test('an invitation is used before it is stopped, stopped before it is over, and open else', () => {
  const invitation: Invitation = { id: 'i', role: 'tech', since: '2026-01-01T00:00:00Z', expires: '2026-01-04T00:00:00Z' };
  const now = '2026-01-02T00:00:00Z';
  expect(invitationStanding(invitation, now)).toBe('open');
  expect(invitationStanding(invitation, '2026-01-05T00:00:00Z')).toBe('over');
  expect(invitationStanding({ ...invitation, stopped: now }, '2026-01-05T00:00:00Z')).toBe('stopped');
  expect(invitationStanding({ ...invitation, used: now, stopped: now }, now)).toBe('used');
});

test.each([
  ['http://127.0.0.1:4460/field/#/join/A', true],
  ['http://localhost/field/#/join/A', true],
  ['http://[::1]:4460/field/', true],
  ['https://hub.example/field/#/join/A', false],
])('%s leads to the machine it is opened on: %s', (link, own) => expect(isOwnMachine(link)).toBe(own));
