import { sql } from 'kysely';
import type { HubMigration } from './dialect-parts.ts';

/** The stream of changes, and the indexes that the crew's list is read by. Walks from before it are all new to it. */
export const changes: HubMigration = async (db) => {
  await db.schema
    .alterTable('walk')
    .addColumn('touched', 'integer', (c) => c.notNull().defaultTo(1))
    .execute();
  await db.schema
    .alterTable('walk')
    .addColumn('change', 'bigint', (c) => c.notNull().defaultTo(0))
    .execute();
  await sql`insert into counter (name, n) values ('changes', 0)`.execute(db);
  await sql`create index walk_touched on walk (id) where touched = 1`.execute(db);
  await db.schema.createIndex('walk_change').on('walk').column('change').execute();
  await db.schema.createIndex('walk_opened').on('walk').columns(['opened', 'id']).execute();
  await db.schema.createIndex('walk_by_person').on('walk').columns(['person', 'opened', 'id']).execute();
  await db.schema.createIndex('walk_by_tree').on('walk').columns(['tree', 'opened', 'id']).execute();
  await db.schema.createIndex('walk_by_edition').on('walk').columns(['edition', 'opened', 'id']).execute();
  await db.schema.createIndex('walk_by_outcome').on('walk').columns(['outcome', 'opened', 'id']).execute();
  await sql`create index walk_to_sum on walk (id) where closed = 1 and summed < length`.execute(db);
};
