import { bytesType, type HubMigration, keyType } from './dialect-parts.ts';

/** Photos, once each, and the walks that show them. */
export const photos: HubMigration = async (db, dialect) => {
  await db.schema
    .createTable('photo')
    .addColumn('hash', 'text', (c) => c.primaryKey())
    .addColumn('type', 'text', (c) => c.notNull())
    .addColumn('bytes', 'integer', (c) => c.notNull())
    .addColumn('body', bytesType(dialect), (c) => c.notNull())
    .addColumn('since', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('walk_photo')
    .addColumn('walk', keyType(dialect), (c) => c.notNull().references('walk.id'))
    .addColumn('photo', 'text', (c) => c.notNull())
    .addColumn('hash', 'text', (c) => c.notNull().references('photo.hash'))
    .addColumn('person', 'text', (c) => c.notNull().references('person.id'))
    .addColumn('since', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('walk_photo_key', ['walk', 'photo'])
    .execute();
};
