import { failure, type Result, success } from '../../../engine/result.ts';
import { type Edition, editionHead } from '../../../engine/walk/index.ts';
import type { ListedEdition, PublicationEntry, PublishRequest, WithdrawnEdition } from '../../sync/wire/edition-wire.ts';
import type { Caller } from '../roles/caller.ts';
import { writeAudit } from './audit-store.ts';
import type { EditionRow } from './hub-tables.ts';
import { type HubDb, type HubStore, type HubTx, holdCounter, inTransaction } from './open-store.ts';

/** An edition whose hash has been checked. */
export type CheckedEdition = { readonly hash: string; readonly edition: Edition };

const rowOf = ({ hash, edition }: CheckedEdition, now: string): EditionRow => {
  const { name: tree, title, complaint, steps } = editionHead(edition);
  const text = JSON.stringify(edition);
  return {
    hash,
    tree,
    title,
    complaint,
    steps,
    bytes: Buffer.byteLength(text),
    text,
    since: now,
  };
};

/**
 * Keeps an edition by its hash, and ties the walks to it that were there before: also where it is kept already. PostgreSQL does two transactions
 * at once, and a walk that came while the edition was being kept saw nothing of it, nor was it seen.
 */
export async function putEdition(tx: HubTx, edition: CheckedEdition, now: string): Promise<void> {
  const row = rowOf(edition, now);
  await tx
    .insertInto('edition')
    .values(row)
    .onConflict((c) => c.column('hash').doNothing())
    .execute();
  await tx.updateTable('walk').set({ tree: row.tree, touched: 1 }).where('edition', '=', row.hash).where('tree', 'is', null).execute();
}

/** Keeps an edition for walks that come, without listing it. */
export const keepEdition = (store: HubStore, edition: CheckedEdition, now: string): Promise<void> =>
  inTransaction(store, (tx) => putEdition(tx, edition, now));

/** Whether a walk here was walked on it: what nobody needs is not kept for the asking. */
export async function isWalked({ db }: HubStore, hash: string): Promise<boolean> {
  return (await db.selectFrom('walk').select('id').where('edition', '=', hash).limit(1).executeTakeFirst()) !== undefined;
}

export async function editionText({ db }: HubStore, hash: string): Promise<string | undefined> {
  return (await db.selectFrom('edition').select('text').where('hash', '=', hash).executeTakeFirst())?.text;
}

export async function knownEditions({ db }: HubStore, hashes: readonly string[]): Promise<ReadonlyMap<string, string>> {
  if (hashes.length === 0) return new Map();
  const rows = await db.selectFrom('edition').select(['hash', 'tree']).where('hash', 'in', hashes).execute();
  return new Map(rows.map(({ hash, tree }) => [hash, tree]));
}

const publications = (db: HubDb | HubTx) =>
  db
    .selectFrom('publication')
    .innerJoin('edition', 'edition.hash', 'publication.hash')
    .innerJoin('person', 'person.id', 'publication.person')
    .leftJoin('withdrawal', 'withdrawal.hash', 'publication.hash')
    .leftJoin('person as back', 'back.id', 'withdrawal.person')
    .select([
      'publication.hash',
      'publication.tree as name',
      'edition.title',
      'edition.complaint',
      'edition.steps',
      'publication.number',
      'publication.based_on',
      'publication.person as by',
      'person.name as byName',
      'publication.at',
      'publication.why',
      'publication.changes',
      'publication.accepted',
      'withdrawal.at as backAt',
      'back.name as backBy',
      'withdrawal.why as backWhy',
    ]);

type PublicationRead = Awaited<ReturnType<ReturnType<typeof publications>['execute']>>[number];

const entryOf = ({ based_on, changes, accepted, backAt, backBy, backWhy, ...rest }: PublicationRead): PublicationEntry => ({
  ...rest,
  changes: JSON.parse(changes) as string[],
  accepted: JSON.parse(accepted) as Record<string, string>,
  ...(based_on !== null && { basedOn: based_on }),
  ...(backAt !== null && { withdrawn: { at: backAt, by: backBy ?? '', why: backWhy ?? '' } }),
});

/** Every publication of a tree, the newest first. */
export async function publicationsOf({ db }: HubStore, tree: string): Promise<readonly PublicationEntry[]> {
  return (await publications(db).where('publication.tree', '=', tree).orderBy('publication.number', 'desc').limit(1000).execute()).map(entryOf);
}

export type PublishRefusal =
  | { readonly code: 'head-moved'; readonly head: PublicationEntry; readonly base?: PublicationEntry }
  | { readonly code: 'base-unknown' | 'edition-withdrawn' };

/**
 * Publishes an edition as the one that follows `basedOn`. Where the tree has moved on since, nothing is changed and what it has moved on to
 * is given. Publishing the current edition again changes nothing.
 */
export function publish(
  store: HubStore,
  caller: Caller,
  checked: CheckedEdition,
  request: Pick<Required<PublishRequest>, 'why' | 'changes' | 'accepted'> & { readonly basedOn?: string | undefined },
  now: string,
): Promise<Result<{ readonly publication: PublicationEntry; readonly stood: boolean }, PublishRefusal>> {
  const { hash, edition } = checked;
  const tree = edition.root;
  return inTransaction(store, async (tx) => {
    await holdCounter(tx, 'publications');
    if (await tx.selectFrom('withdrawal').select('hash').where('hash', '=', hash).executeTakeFirst()) return failure({ code: 'edition-withdrawn' });
    const earlier = (await publications(tx).where('publication.tree', '=', tree).orderBy('publication.number', 'desc').execute()).map(entryOf);
    const newest = earlier[0];
    const current = earlier.find(({ withdrawn }) => !withdrawn);
    if (current && current.hash === hash) return success({ publication: current, stood: true });
    const base = earlier.find((one) => one.hash === request.basedOn);
    // What was withdrawn may still be what someone has before them; what it stood on then is current again.
    const follows = newest === undefined || request.basedOn === newest.hash || (current !== undefined && request.basedOn === current.hash);
    if (!follows && newest) {
      if (
        request.basedOn !== undefined &&
        !base &&
        !(await tx.selectFrom('edition').select('hash').where('hash', '=', request.basedOn).executeTakeFirst())
      )
        return failure({ code: 'base-unknown' });
      return failure({ code: 'head-moved', head: current ?? newest, ...(base && { base }) });
    }
    await putEdition(tx, checked, now);
    await tx
      .insertInto('publication')
      .values({
        tree,
        number: (newest?.number ?? 0) + 1,
        hash,
        based_on: request.basedOn ?? null,
        person: caller.person,
        at: now,
        why: request.why,
        changes: JSON.stringify(request.changes),
        accepted: JSON.stringify(request.accepted),
      })
      .execute();
    await writeAudit(tx, now, caller, 'published', hash, { tree, number: (newest?.number ?? 0) + 1 });
    const publication = await publications(tx)
      .where('publication.tree', '=', tree)
      .where('publication.number', '=', (newest?.number ?? 0) + 1)
      .executeTakeFirstOrThrow();
    return success({ publication: entryOf(publication), stood: false });
  });
}

/** Takes an edition back. It stays readable for its walks; `tree` is of an edition that only ships and is not kept here. */
export function withdraw(
  store: HubStore,
  caller: Caller,
  checked: CheckedEdition | { readonly hash: string },
  why: string,
  now: string,
): Promise<Result<void, 'not-there'>> {
  return inTransaction(store, async (tx) => {
    await holdCounter(tx, 'publications');
    if ('edition' in checked) await putEdition(tx, checked, now);
    const edition = await tx.selectFrom('edition').select('tree').where('hash', '=', checked.hash).executeTakeFirst();
    if (!edition) return failure('not-there');
    const put = await tx
      .insertInto('withdrawal')
      .values({ hash: checked.hash, tree: edition.tree, person: caller.person, at: now, why })
      .onConflict((c) => c.column('hash').doNothing())
      .executeTakeFirst();
    if (put.numInsertedOrUpdatedRows === 1n) await writeAudit(tx, now, caller, 'withdrawn', checked.hash, { tree: edition.tree, why });
    return success(undefined);
  });
}

/** The newest publication of every tree that was not taken back, and all that was. */
export async function currentEditions({
  db,
}: HubStore): Promise<{ readonly entries: readonly ListedEdition[]; readonly withdrawn: readonly WithdrawnEdition[] }> {
  const rows = await publications(db)
    .where(({ not, exists, selectFrom, eb }) =>
      not(
        exists(
          selectFrom('publication as later')
            .leftJoin('withdrawal as gone', 'gone.hash', 'later.hash')
            .select('later.number')
            .whereRef('later.tree', '=', 'publication.tree')
            .whereRef('later.number', '>', eb.ref('publication.number'))
            .where('gone.hash', 'is', null),
        ),
      ),
    )
    .where('withdrawal.hash', 'is', null)
    .orderBy('edition.title')
    .execute();
  const back = await db
    .selectFrom('withdrawal')
    .innerJoin('person', 'person.id', 'withdrawal.person')
    .select(['withdrawal.hash', 'withdrawal.tree as name', 'withdrawal.at', 'person.name as byName', 'withdrawal.why'])
    .orderBy('withdrawal.at')
    .execute();
  const entries = rows.map(
    ({ hash, name, title, complaint, steps, number, byName, at, why }): ListedEdition => ({
      hash,
      name,
      title,
      complaint,
      steps,
      from: 'crew',
      number,
      byName,
      at,
      why,
    }),
  );
  return { entries, withdrawn: back };
}
