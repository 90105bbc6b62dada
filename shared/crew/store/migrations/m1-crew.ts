import { sql } from 'kysely';
import { appendOnly, type HubMigration } from './dialect-parts.ts';

/** People, their devices, invitations, who did what. */
export const crew: HubMigration = async (db, dialect) => {
  await db.schema
    .createTable('person')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('role', 'text', (c) => c.notNull().check(sql`role in ('tech', 'senior-tech', 'trainer', 'owner')`))
    .addColumn('since', 'text', (c) => c.notNull())
    .addColumn('stopped', 'text')
    .execute();
  await db.schema
    .createTable('device')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('label', 'text', (c) => c.notNull())
    .addColumn('secret_hash', 'text', (c) => c.notNull().unique())
    .addColumn('since', 'text', (c) => c.notNull())
    .addColumn('seen', 'text', (c) => c.notNull())
    .addColumn('expires', 'text')
    .addColumn('stopped', 'text')
    .execute();
  await db.schema.createIndex('device_person').on('device').column('person').execute();
  await db.schema
    .createTable('invitation')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('code_hash', 'text', (c) => c.notNull().unique())
    .addColumn('role', 'text', (c) => c.notNull())
    .addColumn('person', 'text', (c) => c.references('person.id'))
    .addColumn('made_by', 'text', (c) => c.references('person.id'))
    .addColumn('since', 'text', (c) => c.notNull())
    .addColumn('expires', 'text', (c) => c.notNull())
    .addColumn('note', 'text')
    .addColumn('used', 'text')
    .addColumn('stopped', 'text')
    .execute();
  const audit = db.schema.createTable('audit');
  await (dialect === 'sqlite'
    ? audit.addColumn('id', 'integer', (c) => c.primaryKey().autoIncrement())
    : audit.addColumn('id', 'bigserial', (c) => c.primaryKey())
  )
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('person', 'text')
    .addColumn('device', 'text')
    .addColumn('what', 'text', (c) => c.notNull())
    .addColumn('about', 'text')
    .addColumn('details', 'text')
    .execute();
  await appendOnly(db, dialect, 'audit');
  await db.schema
    .createTable('counter')
    .addColumn('name', 'text', (c) => c.primaryKey())
    .addColumn('n', 'bigint', (c) => c.notNull())
    .execute();
  await sql`insert into counter (name, n) values ('people', 0), ('publications', 0)`.execute(db);
};
