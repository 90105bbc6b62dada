import type { AuditEntry } from '../../sync/wire/crew-wire.ts';
import type { Caller } from '../roles/caller.ts';
import type { HubDb, HubTx } from './open-store.ts';

export type Deed =
  | 'joined'
  | 'device-added'
  | 'left'
  | 'device-stopped'
  | 'invited'
  | 'invitation-stopped'
  | 'device-code-made'
  | 'person-changed'
  | 'published'
  | 'withdrawn'
  | 'fork-kept'
  | 'confirmed'
  | 'drill-given'
  | 'drill-stopped'
  | 'owner-code-made'
  | 'backed-up'
  | 'restored';

/** Who: undefined for someone at the hub's own machine. */
export type Doer = Pick<Caller, 'person' | 'device'> | undefined;

/** Writes down who did what, in the same transaction as the deed. */
export async function writeAudit(
  tx: HubTx | HubDb,
  at: string,
  doer: Doer,
  what: Deed,
  about?: string,
  details?: Readonly<Record<string, unknown>>,
): Promise<void> {
  await tx
    .insertInto('audit')
    .values({
      at,
      person: doer?.person ?? null,
      device: doer?.device ?? null,
      what,
      about: about ?? null,
      details: details === undefined ? null : JSON.stringify(details),
    })
    .execute();
}

const PAGE = 100;

/** The newest entries first; `before` is the id to go on from. */
export async function readAudit(db: HubDb, before?: number): Promise<{ readonly entries: readonly AuditEntry[]; readonly next?: number }> {
  let query = db.selectFrom('audit').selectAll().orderBy('id', 'desc').limit(PAGE);
  if (before !== undefined) query = query.where('id', '<', before);
  const rows = await query.execute();
  const entries = rows.map(
    ({ id, at, person, device, what, about, details }): AuditEntry => ({
      id: Number(id),
      at,
      what,
      ...(person !== null && { person }),
      ...(device !== null && { device }),
      ...(about !== null && { about }),
      ...(details !== null && { details: JSON.parse(details) as Record<string, unknown> }),
    }),
  );
  const last = entries.at(-1);
  return { entries, ...(entries.length === PAGE && last && { next: last.id }) };
}
