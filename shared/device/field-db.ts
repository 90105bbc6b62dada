import { Dexie, type Table } from 'dexie';
import type { Edition, WalkLine, WalkOutcome, WalkPhase } from '../../engine/walk/index.ts';

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

/** Everything the field app keeps on the device. The desk of the same browser puts editions into it, so that they can be walked. */
export class FieldDb extends Dexie {
  readonly editions!: Table<StoredEdition, string>;
  readonly lines!: Table<WalkLine, [string, number]>;
  readonly walks!: Table<StoredWalk, string>;
  readonly photos!: Table<StoredPhoto, string>;
  readonly drafts!: Table<StoredDraft, string>;

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
  }
}
