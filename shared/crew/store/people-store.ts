import { failure, type Result, success } from '../../../engine/result.ts';
import type { Device, Person, PersonChange } from '../../sync/wire/crew-wire.ts';
import type { Caller } from '../roles/caller.ts';
import { hashSecret } from '../roles/secrets.ts';
import { writeAudit } from './audit-store.ts';
import type { DeviceRow, PersonRow } from './hub-tables.ts';
import { type HubStore, type HubTx, holdCounter, inTransaction } from './open-store.ts';

export const personOf = ({ id, name, role, since, stopped }: PersonRow): Person => ({ id, name, role, since, ...(stopped !== null && { stopped }) });

export const deviceOf = ({ id, person, kind, label, since, seen, expires, stopped }: DeviceRow): Device => ({
  id,
  person,
  kind,
  label,
  since,
  seen,
  ...(expires !== null && { expires }),
  ...(stopped !== null && { stopped }),
});

export type Recognised =
  | { readonly is: 'caller'; readonly caller: Caller; readonly seen: string; readonly expires: string | null }
  | { readonly is: 'stranger' | 'device-stopped' | 'person-stopped' };

/** Whose secret this is. */
export async function recognise({ db }: HubStore, secret: string, now: string): Promise<Recognised> {
  const row = await db
    .selectFrom('device')
    .innerJoin('person', 'person.id', 'device.person')
    .select([
      'device.id as device',
      'device.kind',
      'device.seen',
      'device.expires',
      'device.stopped as deviceStopped',
      'person.id as person',
      'person.name',
      'person.role',
      'person.stopped as personStopped',
    ])
    .where('device.secret_hash', '=', hashSecret(secret))
    .executeTakeFirst();
  if (!row || (row.expires !== null && row.expires <= now)) return { is: 'stranger' };
  if (row.personStopped !== null) return { is: 'person-stopped' };
  if (row.deviceStopped !== null) return { is: 'device-stopped' };
  const { person, name, role, device, kind, seen, expires } = row;
  return { is: 'caller', caller: { person, name, role, device, kind }, seen, expires };
}

export async function markSeen({ db }: HubStore, device: string, now: string, expires?: string): Promise<void> {
  await db
    .updateTable('device')
    .set({ seen: now, ...(expires !== undefined && { expires }) })
    .where('id', '=', device)
    .execute();
}

export async function meOf({ db }: HubStore, caller: Caller): Promise<{ readonly person: Person; readonly device: Device }> {
  const person = await db.selectFrom('person').selectAll().where('id', '=', caller.person).executeTakeFirstOrThrow();
  const device = await db.selectFrom('device').selectAll().where('id', '=', caller.device).executeTakeFirstOrThrow();
  return { person: personOf(person), device: deviceOf(device) };
}

export const hasOwner = async ({ db }: HubStore): Promise<boolean> =>
  (await db.selectFrom('person').select('id').where('role', '=', 'owner').where('stopped', 'is', null).limit(1).executeTakeFirst()) !== undefined;

export async function listPeople({ db }: HubStore): Promise<readonly Person[]> {
  return (await db.selectFrom('person').selectAll().orderBy('name').orderBy('id').execute()).map(personOf);
}

export async function listDevices({ db }: HubStore, person: string): Promise<readonly Device[]> {
  return (await db.selectFrom('device').selectAll().where('person', '=', person).orderBy('since', 'desc').orderBy('id').execute()).map(deviceOf);
}

const owners = async (tx: HubTx): Promise<readonly string[]> =>
  (await tx.selectFrom('person').select('id').where('role', '=', 'owner').where('stopped', 'is', null).execute()).map(({ id }) => id);

/** Changes a person's role, name, or whether they are in the crew. The crew always keeps an owner. */
export function changePerson(
  store: HubStore,
  caller: Caller,
  id: string,
  change: PersonChange,
  now: string,
): Promise<Result<Person, 'not-there' | 'last-owner'>> {
  return inTransaction(store, async (tx) => {
    await holdCounter(tx, 'people');
    const before = await tx.selectFrom('person').selectAll().where('id', '=', id).executeTakeFirst();
    if (!before) return failure('not-there');
    const stopped = change.stopped === undefined ? before.stopped : change.stopped ? (before.stopped ?? now) : null;
    const after: PersonRow = { ...before, role: change.role ?? before.role, name: change.name ?? before.name, stopped };
    const stays = after.role === 'owner' && after.stopped === null;
    if (!stays && (await owners(tx)).every((owner) => owner === id)) return failure('last-owner');
    await tx.updateTable('person').set({ role: after.role, name: after.name, stopped }).where('id', '=', id).execute();
    // What they have invited to, they may not be able to invite to any more.
    if (after.role !== before.role || after.stopped !== null)
      await tx
        .updateTable('invitation')
        .set({ stopped: now })
        .where('made_by', '=', id)
        .where('used', 'is', null)
        .where('stopped', 'is', null)
        .execute();
    await writeAudit(tx, now, caller, 'person-changed', id, {
      ...(after.role !== before.role && { role: after.role, before: before.role }),
      ...(after.name !== before.name && { name: after.name }),
      ...(after.stopped !== before.stopped && { stopped: after.stopped !== null }),
    });
    return success(personOf(after));
  });
}

/** Takes a device out of the crew: its secret opens nothing from now on. One's own, or for an owner anyone's. */
export function stopDevice(store: HubStore, caller: Caller, id: string, now: string): Promise<Result<void, 'not-there'>> {
  return inTransaction(store, async (tx) => {
    const device = await tx.selectFrom('device').select(['id', 'person', 'stopped']).where('id', '=', id).executeTakeFirst();
    if (!device || (device.person !== caller.person && caller.role !== 'owner')) return failure('not-there');
    if (device.stopped === null) {
      await tx.updateTable('device').set({ stopped: now }).where('id', '=', id).execute();
      await writeAudit(tx, now, caller, id === caller.device ? 'left' : 'device-stopped', id);
    }
    return success(undefined);
  });
}
