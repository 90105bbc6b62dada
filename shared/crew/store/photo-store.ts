import { failure, type Result, success } from '../../../engine/result.ts';
import { type Caller, seesAllWalks } from '../roles/caller.ts';
import { type HubStore, inTransaction } from './open-store.ts';

/** Photos of one walk at most. */
export const MOST_PHOTOS = 200;

export type Photo = { readonly type: string; readonly body: Uint8Array };

/** Keeps a photo under its hash and ties it to the place in the walk that names it. The same again changes nothing. */
export function putPhoto(
  store: HubStore,
  caller: Caller,
  at: { readonly walk: string; readonly photo: string; readonly hash: string },
  photo: Photo,
  now: string,
): Promise<Result<void, 'not-there' | 'photo-differs' | 'too-many-photos'>> {
  return inTransaction(store, async (tx) => {
    // Only someone who has sent lines of a walk may add a picture to it.
    const hand = await tx.selectFrom('walk_hand').select('walk').where('walk', '=', at.walk).where('person', '=', caller.person).executeTakeFirst();
    if (!hand) return failure('not-there');
    const there = await tx.selectFrom('walk_photo').select('hash').where('walk', '=', at.walk).where('photo', '=', at.photo).executeTakeFirst();
    if (there) return there.hash === at.hash ? success(undefined) : failure('photo-differs');
    const { n } = await tx
      .selectFrom('walk_photo')
      .select((eb) => eb.fn.countAll<number>().as('n'))
      .where('walk', '=', at.walk)
      .executeTakeFirstOrThrow();
    if (Number(n) >= MOST_PHOTOS) return failure('too-many-photos');
    await tx
      .insertInto('photo')
      .values({ hash: at.hash, type: photo.type, bytes: photo.body.length, body: photo.body, since: now })
      .onConflict((c) => c.column('hash').doNothing())
      .execute();
    await tx
      .insertInto('walk_photo')
      .values({ ...at, person: caller.person, since: now })
      .onConflict((c) => c.columns(['walk', 'photo']).doNothing())
      .execute();
    return success(undefined);
  });
}

/** A walk's photo, for who may see the walk. */
export async function walkPhoto(
  { db }: HubStore,
  caller: Caller,
  walk: string,
  photo: string,
): Promise<(Photo & { readonly hash: string }) | undefined> {
  let query = db
    .selectFrom('walk_photo')
    .innerJoin('photo', 'photo.hash', 'walk_photo.hash')
    .innerJoin('walk', 'walk.id', 'walk_photo.walk')
    .select(['photo.hash', 'photo.type', 'photo.body'])
    .where('walk_photo.walk', '=', walk)
    .where('walk_photo.photo', '=', photo);
  if (!seesAllWalks(caller)) query = query.where('walk.person', '=', caller.person);
  return query.executeTakeFirst();
}
