import type { Generated } from 'kysely';
import type { DeviceKind, Role } from '../../sync/wire/role.ts';

// The tables as they are after the last migration. Times are ISO 8601 in UTC, so that they sort as text; truth is 0 or 1; lists are JSON text.
// Both databases have the same columns.

export type PersonRow = { id: string; name: string; role: Role; since: string; stopped: string | null };

export type DeviceRow = {
  id: string;
  person: string;
  kind: DeviceKind;
  label: string;
  /** SHA-256 of the device's secret; the secret itself is nowhere. */
  secret_hash: string;
  since: string;
  seen: string;
  expires: string | null;
  stopped: string | null;
};

export type InvitationRow = {
  id: string;
  code_hash: string;
  role: Role;
  /** Whose further device it is for; null for someone new. */
  person: string | null;
  /** Who invited; null for the hub's own terminal. */
  made_by: string | null;
  since: string;
  expires: string;
  note: string | null;
  used: string | null;
  stopped: string | null;
};

export type AuditRow = {
  id: Generated<number>;
  at: string;
  person: string | null;
  device: string | null;
  what: string;
  about: string | null;
  details: string | null;
};

/** Every edition that the hub has, published or only kept for a walk, by the SHA-256 of its canonical text. */
export type EditionRow = { hash: string; tree: string; title: string; complaint: string; steps: number; bytes: number; text: string; since: string };

export type PublicationRow = {
  tree: string;
  number: number;
  hash: string;
  based_on: string | null;
  person: string;
  at: string;
  why: string;
  changes: string;
  accepted: string;
};

export type WithdrawalRow = { hash: string; tree: string; person: string; at: string; why: string };

export type WalkRow = {
  id: string;
  edition: string;
  /** Of the edition; null while the hub does not have it. */
  tree: string | null;
  /** Whose device sent the first line that arrived. */
  person: string;
  by_name: string | null;
  site: string | null;
  drill: number;
  /** When the call was opened; empty until the first line has arrived. */
  opened: string;
  last_at: string;
  arrived: string;
  /** Lines from 0 without a gap, and the hash of the last. */
  length: number;
  head: string;
  /** All lines of the walk, those of forks and past a gap too; how many are off the main run for good; the highest number. */
  lines: number;
  forks: number;
  top: number;
  hands: number;
  /** What the devices said they have. */
  told_length: number;
  told_head: string | null;
  shrunk: number;
  closed: number;
  /** From replaying the first `summed` lines; all null before. */
  summed: number;
  phase: string | null;
  finding: string | null;
  outcome: string | null;
  replay_problem: string | null;
  /** Of a closed walk, from opening to closing without its pauses; and its bin on the scale of pictures. */
  minutes: number | null;
  minutes_bin: number | null;
  finding_tree: string | null;
  finding_step: string | null;
  /** The newest of its confirmations: 1 it was that, 0 it was not, null nothing is known. */
  held: number | null;
  held_bench: string | null;
  held_fault: string | null;
  /** 1 while it has changed since it was last given a number in the stream of changes. */
  touched: number;
  change: number;
};

export type WalkLineRow = {
  walk: string;
  seq: number;
  hash: string;
  before: string;
  type: string;
  person: string;
  device: string;
  arrived: string;
  forked: number;
  /** The line as JSON. */
  text: string;
};

/** A stay of a walk at a step: what engine/review tells of it. All of a walk's are put in anew when it is summed up. */
export type WalkStepRow = {
  walk: string;
  place: number;
  tree: string;
  step: string;
  kind: string;
  way: string | null;
  minutes: number;
  bin: number;
  could_not: number;
  too_close: number;
  accepted: number;
  jumped: number;
  stepped_back: number;
};

/** Only added to; the highest number of a walk is what holds. */
export type ConfirmationRow = {
  walk: string;
  number: number;
  at: string;
  person: string;
  held: number | null;
  bench: string | null;
  fault: string | null;
  note: string | null;
};

export type WalkHandRow = { walk: string; person: string };

export type PhotoRow = { hash: string; type: string; bytes: number; body: Uint8Array; since: string };
export type WalkPhotoRow = { walk: string; photo: string; hash: string; person: string; since: string };

/** A drill that was given. `task` is JSON; with `everyone` 0, it is for those in `drill_person`. */
export type DrillRow = { id: string; edition: string; task: string; person: string; at: string; everyone: number; stopped: string | null };
export type DrillPersonRow = { drill: string; person: string };
/** A drill as someone did it, as JSON. */
export type DrillRunRow = { drill: string; person: string; id: string; device: string; arrived: string; text: string };

/** Numbers handed out under a lock, and rows that are only locked. */
export type CounterRow = { name: string; n: number };

export type HubTables = {
  person: PersonRow;
  device: DeviceRow;
  invitation: InvitationRow;
  audit: AuditRow;
  counter: CounterRow;
  edition: EditionRow;
  publication: PublicationRow;
  withdrawal: WithdrawalRow;
  walk: WalkRow;
  walk_line: WalkLineRow;
  walk_hand: WalkHandRow;
  walk_step: WalkStepRow;
  confirmation: ConfirmationRow;
  photo: PhotoRow;
  walk_photo: WalkPhotoRow;
  drill: DrillRow;
  drill_person: DrillPersonRow;
  drill_run: DrillRunRow;
};
