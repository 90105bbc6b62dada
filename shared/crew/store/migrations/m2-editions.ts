import type { HubMigration } from './dialect-parts.ts';

/** Editions, their publications, and those that were taken back. */
export const editions: HubMigration = async (db) => {
  await db.schema
    .createTable('edition')
    .addColumn('hash', 'text', (c) => c.primaryKey())
    .addColumn('tree', 'text', (c) => c.notNull())
    .addColumn('title', 'text', (c) => c.notNull())
    .addColumn('complaint', 'text', (c) => c.notNull())
    .addColumn('steps', 'integer', (c) => c.notNull())
    .addColumn('bytes', 'integer', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('since', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('publication')
    .addColumn('tree', 'text', (c) => c.notNull())
    .addColumn('number', 'integer', (c) => c.notNull())
    .addColumn('hash', 'text', (c) => c.notNull().references('edition.hash'))
    .addColumn('based_on', 'text')
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('why', 'text', (c) => c.notNull())
    .addColumn('changes', 'text', (c) => c.notNull())
    .addColumn('accepted', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('publication_key', ['tree', 'number'])
    .execute();
  await db.schema.createIndex('publication_hash').on('publication').column('hash').execute();
  await db.schema
    .createTable('withdrawal')
    .addColumn('hash', 'text', (c) => c.primaryKey())
    .addColumn('tree', 'text', (c) => c.notNull())
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('why', 'text', (c) => c.notNull())
    .execute();
};
