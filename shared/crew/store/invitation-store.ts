import type { ExpressionBuilder } from 'kysely';
import { failure, type Result, success } from '../../../engine/result.ts';
import type { Device, Invitation, JoinRequest, Person } from '../../sync/wire/crew-wire.ts';
import type { Role } from '../../sync/wire/role.ts';
import type { Caller } from '../roles/caller.ts';
import { hashCode, hashSecret, newCode, newId, newSecret, plainCode } from '../roles/secrets.ts';
import { writeAudit } from './audit-store.ts';
import type { DeviceRow, HubTables, InvitationRow, PersonRow } from './hub-tables.ts';
import { type HubStore, type HubTx, inTransaction } from './open-store.ts';
import { deviceOf, personOf } from './people-store.ts';

const later = (now: string, hours: number): string => new Date(Date.parse(now) + hours * 3_600_000).toISOString();

export type MadeCode = { readonly id: string; readonly code: string; readonly expires: string };

async function addCode(
  tx: HubTx,
  values: Pick<InvitationRow, 'role' | 'person' | 'made_by' | 'note'>,
  hours: number,
  now: string,
): Promise<MadeCode> {
  const made = { id: newId('invitation'), code: newCode(), expires: later(now, hours) };
  await tx
    .insertInto('invitation')
    .values({ ...values, id: made.id, code_hash: hashCode(made.code), since: now, expires: made.expires, used: null, stopped: null })
    .execute();
  return made;
}

/** Codes for people who are new to the crew. */
export function invite(
  store: HubStore,
  caller: Caller,
  wanted: { readonly role: Role; readonly hours: number; readonly count: number; readonly note?: string | undefined },
  now: string,
): Promise<readonly MadeCode[]> {
  return inTransaction(store, async (tx) => {
    const made: MadeCode[] = [];
    for (let n = 0; n < wanted.count; n += 1)
      made.push(await addCode(tx, { role: wanted.role, person: null, made_by: caller.person, note: wanted.note ?? null }, wanted.hours, now));
    await writeAudit(
      tx,
      now,
      caller,
      'invited',
      made
        .map(({ id }) => id)
        .join(' ')
        .slice(0, 2000),
      { role: wanted.role, count: made.length },
    );
    return made;
  });
}

/** A short-lived code with which another device joins as the caller. */
export function deviceCode(store: HubStore, caller: Caller, now: string): Promise<MadeCode> {
  return inTransaction(store, async (tx) => {
    const made = await addCode(tx, { role: caller.role, person: caller.person, made_by: caller.person, note: null }, 0.25, now);
    await writeAudit(tx, now, caller, 'device-code-made', made.id);
    return made;
  });
}

/** A code for an owner, for whoever can read the hub's own terminal: the first start, and when every owner's device is lost. */
export function ownerCode(store: HubStore, now: string): Promise<MadeCode> {
  return inTransaction(store, async (tx) => {
    const made = await addCode(tx, { role: 'owner', person: null, made_by: null, note: null }, 24, now);
    await writeAudit(tx, now, undefined, 'owner-code-made', made.id);
    return made;
  });
}

const invitationOf = ({ id, role, made_by, since, expires, note, used, stopped }: InvitationRow): Invitation => ({
  id,
  role,
  since,
  expires,
  ...(made_by !== null && { by: made_by }),
  ...(note !== null && { note }),
  ...(used !== null && { used }),
  ...(stopped !== null && { stopped }),
});

/** Invitations of the caller; an owner sees everyone's. The newest first. */
export async function listInvitations({ db }: HubStore, caller: Caller): Promise<readonly Invitation[]> {
  let query = db.selectFrom('invitation').selectAll().where('person', 'is', null).orderBy('since', 'desc').orderBy('id').limit(1000);
  if (caller.role !== 'owner') query = query.where('made_by', '=', caller.person);
  return (await query.execute()).map(invitationOf);
}

export function stopInvitation(store: HubStore, caller: Caller, id: string, now: string): Promise<Result<void, 'not-there'>> {
  return inTransaction(store, async (tx) => {
    const row = await tx.selectFrom('invitation').selectAll().where('id', '=', id).executeTakeFirst();
    if (!row || (caller.role !== 'owner' && row.made_by !== caller.person)) return failure('not-there');
    // One that lets someone in just now is used, and not stopped.
    const put = await tx
      .updateTable('invitation')
      .set({ stopped: now })
      .where('id', '=', id)
      .where('used', 'is', null)
      .where('stopped', 'is', null)
      .executeTakeFirst();
    if (put.numUpdatedRows === 1n) await writeAudit(tx, now, caller, 'invitation-stopped', id);
    return success(undefined);
  });
}

export type Joining = { readonly person: Person; readonly device: Device; readonly secret: string };

/** Days that a desk stays in the crew without being used. */
export const DESK_DAYS = 30;

export const deskExpiry = (now: string): string => later(now, DESK_DAYS * 24);

/** A code that lets someone in: not used, not stopped, and its hours not over. */
const isGood = (eb: ExpressionBuilder<HubTables, 'invitation'>, now: string) =>
  eb.and([eb('used', 'is', null), eb('stopped', 'is', null), eb('expires', '>', now)]);

/** Uses a code up and adds a device. Of many who send the same code at once, one is let in. */
export function join(store: HubStore, request: JoinRequest, now: string): Promise<Result<Joining, 'code-not-good' | 'name-missing'>> {
  return inTransaction(store, async (tx) => {
    const code = plainCode(request.code);
    if (code === undefined) return failure('code-not-good');
    const found = await tx
      .selectFrom('invitation')
      .selectAll()
      .where('code_hash', '=', hashCode(code))
      .where((eb) => isGood(eb, now))
      .executeTakeFirst();
    if (!found) return failure('code-not-good');
    if (found.person === null && request.name === undefined) return failure('name-missing');
    // Asked again, as it is taken: with PostgreSQL it may have been used or stopped since it was found.
    const taken = await tx
      .updateTable('invitation')
      .set({ used: now })
      .where('id', '=', found.id)
      .where((eb) => isGood(eb, now))
      .executeTakeFirst();
    if (taken.numUpdatedRows !== 1n) return failure('code-not-good');
    const person = await personFor(tx, found, request.name ?? '', now);
    if (!person) return failure('code-not-good');
    const secret = newSecret();
    const device: DeviceRow = {
      id: newId('device'),
      person: person.id,
      kind: request.kind,
      label: request.label,
      secret_hash: hashSecret(secret),
      since: now,
      seen: now,
      expires: request.kind === 'desk' ? deskExpiry(now) : null,
      stopped: null,
    };
    await tx.insertInto('device').values(device).execute();
    const doer = { person: person.id, device: device.id };
    await writeAudit(tx, now, doer, found.person === null ? 'joined' : 'device-added', device.id, { role: person.role, kind: device.kind });
    return success({ person: personOf(person), device: deviceOf(device), secret });
  });
}

async function personFor(tx: HubTx, invitation: InvitationRow, name: string, now: string): Promise<PersonRow | undefined> {
  if (invitation.person !== null)
    return tx.selectFrom('person').selectAll().where('id', '=', invitation.person).where('stopped', 'is', null).executeTakeFirst();
  const person: PersonRow = { id: newId('person'), name, role: invitation.role, since: now, stopped: null };
  await tx.insertInto('person').values(person).execute();
  // Whoever was let in as an owner by the terminal makes the terminal's other codes worthless.
  if (invitation.made_by === null)
    await tx
      .updateTable('invitation')
      .set({ stopped: now })
      .where('made_by', 'is', null)
      .where('used', 'is', null)
      .where('stopped', 'is', null)
      .execute();
  return person;
}
