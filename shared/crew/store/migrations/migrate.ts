import { type Kysely, type Migration, Migrator } from 'kysely';
import type { Dialect, HubMigration } from './dialect-parts.ts';
import { crew } from './m1-crew.ts';
import { editions } from './m2-editions.ts';
import { walks } from './m3-walks.ts';
import { photos } from './m4-photos.ts';
import { changes } from './m5-changes.ts';
import { review } from './m6-review.ts';

/** In the order in which they are run. A published one is never edited; what has to change is a new one at the end. */
const MIGRATIONS: Readonly<Record<string, HubMigration>> = {
  '0001-crew': crew,
  '0002-editions': editions,
  '0003-walks': walks,
  '0004-photos': photos,
  '0005-changes': changes,
  '0006-review': review,
};

export const SCHEMA_VERSIONS: readonly string[] = Object.keys(MIGRATIONS);

/** The database was last used by a newer version of this program. */
export class NewerSchema extends Error {
  override readonly name = 'NewerSchema';
}

/**
 * Brings a database to a version, the newest where none is given. Several processes may do it at once: the first works, the others wait.
 * Throws `NewerSchema`, or what the database says.
 */
export async function migrate(db: Kysely<unknown>, dialect: Dialect, to: string = SCHEMA_VERSIONS.at(-1) ?? ''): Promise<void> {
  const migrations = Object.fromEntries(
    Object.entries(MIGRATIONS).map(([name, up]): [string, Migration] => [name, { up: (one: Kysely<unknown>) => up(one, dialect) }]),
  );
  const migrator = new Migrator({
    db,
    provider: { getMigrations: async () => migrations },
    migrationTableName: 'schema_version',
    migrationLockTableName: 'schema_lock',
  });
  const { error } = await migrator.migrateTo(to);
  if (!error) return;
  if (error instanceof Error && error.message.includes('corrupted migrations'))
    throw new NewerSchema('The data was last used by a newer version of Ohmward. Use that version or a newer one; nothing was changed.');
  throw error;
}

/** Whether the database is at the newest version that this program knows. */
export async function isMigrated(db: Kysely<unknown>): Promise<boolean> {
  const done = await (db as Kysely<{ schema_version: { name: string } }>).selectFrom('schema_version').select('name').execute();
  return SCHEMA_VERSIONS.every((name) => done.some((one) => one.name === name));
}
