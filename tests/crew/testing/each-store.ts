import { afterAll, beforeAll, describe } from 'vitest';
import type { StorePlace } from '../../../shared/crew/store/open-store.ts';
import { HOOK_TIME } from './hook-time.ts';
import { sqlitePlace } from './hub-under-test.ts';
import { hasPostgres, type PostgresServer, startPostgres } from './postgres-server.ts';

/** Describes the same tests for both databases. `fresh` gives a place for a new, empty one. Says so where there is no PostgreSQL to test with. */
export function eachStore(tests: (fresh: () => Promise<StorePlace>, name: 'SQLite' | 'PostgreSQL') => void): void {
  describe('SQLite', () => {
    const made: { clear(): void }[] = [];
    afterAll(() => {
      for (const one of made) one.clear();
    });
    tests(async () => {
      const one = sqlitePlace();
      made.push(one);
      return one.place;
    }, 'SQLite');
  });

  if (!hasPostgres) console.warn('PostgreSQL is not installed: its half of these tests is skipped.');
  describe.skipIf(!hasPostgres)('PostgreSQL', () => {
    let server: PostgresServer | undefined;
    beforeAll(async () => {
      server = await startPostgres();
    }, HOOK_TIME);
    afterAll(() => server?.stop());
    tests(async () => {
      if (!server) throw new Error('PostgreSQL did not start.');
      return { postgres: await server.database(), connections: 8 };
    }, 'PostgreSQL');
  });
}
