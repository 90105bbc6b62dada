import { expect, test } from 'vitest';
import type { sqliteDriver } from './open-store.ts';
import { servedPlace, storePlace, USUAL_DATA, whyNoSqlite } from './store-place.ts';

const file = (folder: string) => ({ sqlite: `${folder}/hub.sqlite` });

test('the usual data is out of git’s sight', () => expect(USUAL_DATA).toMatch(/\/\.ohmward$/));

test.each([
  ['the folder that was named', { data: '/srv/crew' }, {}, file('/srv/crew')],
  [
    'PostgreSQL where its address is given',
    { data: '/srv/crew' },
    { DATABASE_URL: 'postgres://db/crew' },
    { postgres: 'postgres://db/crew', connections: 10 },
  ],
  ['PostgreSQL without a folder', { data: '' }, { DATABASE_URL: 'postgres://db/crew' }, { postgres: 'postgres://db/crew', connections: 10 }],
  ['nowhere with an empty folder', { data: '' }, {}, undefined],
  ['nowhere for who works alone', { data: '/srv/crew', alone: true }, { DATABASE_URL: 'postgres://db/crew' }, undefined],
])('the service keeps its data in %s', (_where, options, environment, place) => expect(servedPlace(options, environment)).toEqual(place));

test('an address of another database is refused', () => {
  expect(() => storePlace('/srv/crew', { DATABASE_URL: 'mysql://db/crew' })).toThrow('postgres://');
});

test('a database that cannot be loaded is told in one line, and one that can is not', () => {
  const broken = (): ReturnType<typeof sqliteDriver> => {
    throw new Error('Could not locate the bindings file. Tried:\n → /a\n → /b');
  };
  expect(whyNoSqlite(broken)).toBe('Could not locate the bindings file. Tried:');
  expect(whyNoSqlite()).toBeUndefined();
});
