import { sql } from 'kysely';
import { appendOnly, type HubMigration, keyType } from './dialect-parts.ts';

/** The stays of each walk, what was learnt of its finding afterwards, and drills. Walks from before are summed up again, so that theirs are there too. */
export const review: HubMigration = async (db, dialect) => {
  for (const [name, type] of [
    ['minutes', 'double precision'],
    ['minutes_bin', 'integer'],
    ['finding_tree', 'text'],
    ['finding_step', 'text'],
    ['held', 'integer'],
    ['held_bench', 'text'],
    ['held_fault', 'text'],
  ] as const)
    await db.schema.alterTable('walk').addColumn(name, type).execute();
  await sql`update walk set summed = 0`.execute(db);
  const steps = db.schema
    .createTable('walk_step')
    .addColumn('walk', keyType(dialect), (c) => c.notNull().references('walk.id'))
    .addColumn('place', 'integer', (c) => c.notNull())
    .addColumn('tree', 'text', (c) => c.notNull())
    .addColumn('step', 'text', (c) => c.notNull())
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('way', 'text')
    .addColumn('minutes', 'double precision', (c) => c.notNull())
    .addColumn('bin', 'integer', (c) => c.notNull())
    .addColumn('could_not', 'integer', (c) => c.notNull())
    .addColumn('too_close', 'integer', (c) => c.notNull())
    .addColumn('accepted', 'integer', (c) => c.notNull())
    .addColumn('jumped', 'integer', (c) => c.notNull())
    .addColumn('stepped_back', 'integer', (c) => c.notNull())
    .addPrimaryKeyConstraint('walk_step_key', ['walk', 'place']);
  await (dialect === 'sqlite' ? steps.modifyEnd(sql`without rowid`) : steps).execute();
  await db.schema
    .createTable('confirmation')
    .addColumn('walk', keyType(dialect), (c) => c.notNull().references('walk.id'))
    .addColumn('number', 'integer', (c) => c.notNull())
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('held', 'integer')
    .addColumn('bench', 'text')
    .addColumn('fault', 'text')
    .addColumn('note', 'text')
    .addPrimaryKeyConstraint('confirmation_key', ['walk', 'number'])
    .execute();
  await appendOnly(db, dialect, 'confirmation');
  await db.schema
    .createTable('drill')
    .addColumn('id', keyType(dialect), (c) => c.primaryKey())
    .addColumn('edition', 'text', (c) => c.notNull().references('edition.hash'))
    .addColumn('task', 'text', (c) => c.notNull())
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('everyone', 'integer', (c) => c.notNull())
    .addColumn('stopped', 'text')
    .execute();
  await db.schema
    .createTable('drill_person')
    .addColumn('drill', keyType(dialect), (c) => c.notNull().references('drill.id'))
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addPrimaryKeyConstraint('drill_person_key', ['drill', 'person'])
    .execute();
  await db.schema
    .createTable('drill_run')
    .addColumn('drill', keyType(dialect), (c) => c.notNull().references('drill.id'))
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('id', keyType(dialect), (c) => c.notNull())
    .addColumn('device', 'text', (c) => c.notNull())
    .addColumn('arrived', 'text', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('drill_run_key', ['drill', 'person', 'id'])
    .execute();
  await db.schema.createIndex('drill_at').on('drill').columns(['at', 'id']).execute();
  // What a picture of a tree is counted from, read from the index alone.
  await db.schema
    .createIndex('walk_picture')
    .on('walk')
    .columns(['tree', 'drill', 'edition', 'closed', 'opened', 'outcome', 'minutes_bin', 'minutes', 'id'])
    .execute();
  await db.schema.createIndex('walk_by_finding').on('walk').columns(['finding_tree', 'finding_step', 'opened', 'id']).execute();
  await sql`create index walk_held on walk (held_bench, held_fault) where held_fault is not null`.execute(db);
  await sql`create index walk_confirmed on walk (held, opened, id) where held is not null`.execute(db);
};
