import { sql } from 'kysely';
import { type HubMigration, keyType } from './dialect-parts.ts';

/** Walks and their lines. A line once stored is never changed: the lines of a walk are a set that only grows. */
export const walks: HubMigration = async (db, dialect) => {
  await db.schema
    .createTable('walk')
    .addColumn('id', keyType(dialect), (c) => c.primaryKey())
    .addColumn('edition', 'text', (c) => c.notNull())
    .addColumn('tree', 'text')
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('by_name', 'text')
    .addColumn('site', 'text')
    .addColumn('drill', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('opened', keyType(dialect), (c) => c.notNull().defaultTo(''))
    .addColumn('last_at', 'text', (c) => c.notNull())
    .addColumn('arrived', 'text', (c) => c.notNull())
    .addColumn('length', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('head', 'text', (c) => c.notNull())
    .addColumn('lines', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('forks', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('top', 'integer', (c) => c.notNull().defaultTo(-1))
    .addColumn('hands', 'integer', (c) => c.notNull().defaultTo(1))
    .addColumn('told_length', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('told_head', 'text')
    .addColumn('shrunk', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('closed', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('summed', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('phase', 'text')
    .addColumn('finding', 'text')
    .addColumn('outcome', 'text')
    .addColumn('replay_problem', 'text')
    .execute();
  const lines = db.schema
    .createTable('walk_line')
    .addColumn('walk', keyType(dialect), (c) => c.notNull().references('walk.id'))
    .addColumn('seq', 'integer', (c) => c.notNull())
    .addColumn('hash', 'text', (c) => c.notNull())
    .addColumn('before', 'text', (c) => c.notNull())
    .addColumn('type', 'text', (c) => c.notNull())
    .addColumn('person', 'text', (c) => c.notNull())
    .addColumn('device', 'text', (c) => c.notNull())
    .addColumn('arrived', 'text', (c) => c.notNull())
    .addColumn('forked', 'integer', (c) => c.notNull().defaultTo(0))
    .addColumn('text', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('walk_line_key', ['walk', 'seq', 'hash']);
  // The rows lie in the order of the key, so that a walk is read in one run.
  await (dialect === 'sqlite' ? lines.modifyEnd(sql`without rowid`) : lines).execute();
  await db.schema
    .createTable('walk_hand')
    .addColumn('walk', keyType(dialect), (c) => c.notNull().references('walk.id'))
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addPrimaryKeyConstraint('walk_hand_key', ['walk', 'person'])
    .execute();
};
