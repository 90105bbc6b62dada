import { Dexie, type Table } from 'dexie';
import type { Edition, WalkLine, WalkOutcome, WalkPhase } from '../../engine/walk/index.ts';
import type { WalkNote } from '../sync/sync-store.ts';
import type { Device, Person } from '../sync/wire/crew-wire.ts';
import type { GivenDrill } from '../sync/wire/drill-wire.ts';
import type { ListedEdition, WithdrawnEdition } from '../sync/wire/edition-wire.ts';

/** An edition kept on this device. `listed` is its place on the crew's list, -1 once the list has dropped it and only walks need it. */
export type StoredEdition = {
  readonly hash: string;
  readonly name: string;
  readonly title: string;
  readonly complaint: string;
  readonly steps: number;
  readonly listed: number;
  /** Put here by hand, and so never dropped with the crew's list: by the desk of this browser, or from an edition file. */
  readonly from?: 'desk' | 'file';
  readonly edition: Edition;
};

/** What a list of walks shows, worked out from the log and written with each of its lines; the log alone is the walk. */
export type StoredWalk = {
  readonly id: string;
  readonly edition: string;
  readonly title: string;
  readonly site?: string;
  readonly by?: string;
  readonly opened: string;
  readonly changed: string;
  readonly lines: number;
  readonly phase: WalkPhase;
  readonly step?: string;
  readonly finding?: string;
  readonly putBack: number;
  readonly outcome?: WalkOutcome;
};

export type StoredPhoto = { readonly id: string; readonly walk: string; readonly taken: string; readonly picture: Blob };

/** What was typed and not entered, on the step it was typed on. */
export type StoredDraft = { readonly walk: string; readonly at: string; readonly text: string };

/** What the hub holds of a walk: lines from 0, and what it has said about others. A walk without an entry has not been sent at all. */
export type StoredSync = { readonly walk: string; readonly sent: number; readonly notes: readonly WalkNote[] };

/** A photo that need not be sent again: the hub has it, or will not have it (`why`). */
export type StoredPhotoSync = { readonly id: string; readonly why?: string };

/** This device in the crew. The token is told once by the hub and goes nowhere but there. */
export type StoredMembership = { readonly key: 'membership'; readonly token: string; readonly person: Person; readonly device: Device };

/** The crew's list as it was last given, for what it means to open walks. */
export type StoredCrewList = {
  readonly key: 'list';
  readonly entries: readonly ListedEdition[];
  readonly withdrawn: readonly WithdrawnEdition[];
};

/** A drill that the crew's trainer gave to this device's tech. */
export type StoredDrillTask = GivenDrill;

/** A drill that was begun here. Only one that has ended, and that the crew gave, goes to the hub; `why` it will not have it, where it will not. */
export type StoredDrillRun = {
  readonly id: string;
  readonly drill: string;
  readonly run: Readonly<Record<string, unknown>>;
  readonly ended: boolean;
  readonly sent?: boolean;
  readonly why?: string;
};

/** Everything the field app keeps on the device. The desk of the same browser puts editions into it, so that they can be walked. */
export class FieldDb extends Dexie {
  readonly editions!: Table<StoredEdition, string>;
  readonly lines!: Table<WalkLine, [string, number]>;
  readonly walks!: Table<StoredWalk, string>;
  readonly photos!: Table<StoredPhoto, string>;
  readonly drafts!: Table<StoredDraft, string>;
  readonly sync!: Table<StoredSync, string>;
  readonly photoSync!: Table<StoredPhotoSync, string>;
  readonly crew!: Table<StoredMembership | StoredCrewList, string>;
  readonly drillTasks!: Table<StoredDrillTask, string>;
  readonly drillRuns!: Table<StoredDrillRun, string>;

  constructor(name = 'ohmward-field') {
    // 'strict': a transaction is complete when its data is on the disk, not when it is in the system's buffers.
    super(name, { chromeTransactionDurability: 'strict' });
    this.version(1).stores({
      editions: 'hash, listed',
      lines: '[walk+seq]',
      walks: 'id, changed',
      photos: 'id, walk',
      drafts: 'walk',
    });
    // Everything of the first version stays as it is: no entry in `sync` means not sent, so joining sends the walks from before too.
    this.version(2).stores({ sync: 'walk', photoSync: 'id', crew: 'key' });
    this.version(3).stores({ drillTasks: 'task.id', drillRuns: 'id' });
  }
}
