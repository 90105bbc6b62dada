import Dexie, { type Table } from 'dexie';
import type { WalkReview } from '../../../engine/review/index.ts';
import type { Edition } from '../../../engine/walk/index.ts';
import type { ConfirmRequest } from '../../../shared/sync/wire/review-wire.ts';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';

/** A log that was opened from a file, kept until it is removed. The summary is worked out from it, and anew when its edition is found. */
export type KeptWalk = {
  readonly id: string;
  readonly edition: string;
  readonly lines: readonly unknown[];
  /** Lines of the same walk that contradict those kept. */
  readonly aside: readonly unknown[];
  readonly file: string;
  readonly summary: LocalSummary;
};

/** As the hub tells of a walk, and where its finding stands in the tree. */
export type LocalSummary = WalkSummary & { readonly findingAt?: string };

/** What was said of a kept walk's finding; the last of a walk holds. */
export type KeptConfirmation = ConfirmRequest & { readonly number?: number; readonly walk: string; readonly at: string; readonly personName: string };

/** What was worked out of one walk: `key` names the log, its length and what was said of it. */
export type KeptReview = { readonly key: string; readonly walk: string; readonly review: WalkReview };

/** Walks that the desk keeps in this browser, with the editions they were walked on, and what was worked out of any walk. */
export type WalksDb = Dexie & {
  readonly walks: Table<KeptWalk, string>;
  readonly editions: Table<{ readonly hash: string; readonly edition: Edition }, string>;
  readonly confirmations: Table<KeptConfirmation, number>;
  readonly reviews: Table<KeptReview, string>;
};

export function openWalksDb(name = 'ohmward-walks'): WalksDb {
  const db = new Dexie(name, { chromeTransactionDurability: 'strict' });
  db.version(1).stores({ walks: 'id, edition', editions: 'hash', confirmations: '++number, walk', reviews: 'key, walk' });
  return db as WalksDb;
}
