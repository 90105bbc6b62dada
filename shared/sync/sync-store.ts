import type { Edition, WalkLine } from '../../engine/walk/index.ts';
import type { GivenDrill } from './wire/drill-wire.ts';
import type { ListedEdition, WithdrawnEdition } from './wire/edition-wire.ts';
import type { LineFault } from './wire/walk-wire.ts';

/** A walk on this device as sync sees it. */
export type LocalWalk = {
  readonly walk: string;
  /** Lines in its log here, and the hash of the last. */
  readonly length: number;
  readonly head: string;
  /** Lines from 0 that the hub has said it holds. */
  readonly sent: number;
};

/** A drill that was done here to its end and that the crew had given. `run` is engine/review's record of it. */
export type LocalDrillRun = { readonly id: string; readonly drill: string; readonly run: Readonly<Record<string, unknown>> };

export type LocalPhoto = { readonly id: string; readonly walk: string; readonly picture: Blob };

/** Something about a walk that its tech, or the crew, should know. */
export type WalkNote =
  /** The hub holds another line at the same place: the log was carried on in two places. Both are kept. */
  | { readonly code: 'forked' }
  /** The hub will never take this line; the lines after it are sent all the same. */
  | { readonly code: 'line-refused'; readonly seq: number; readonly fault: LineFault | 'too-large'; readonly detail: string };

/**
 * What the app's storage does for sync. A method that rejects ends the pass with `storage-failed`, and the next pass starts from what is stored.
 * Only lines that are durable on the device may be given.
 */
export type SyncStore = {
  /** Walks with `sent < length`, the oldest first. */
  unsent(): Promise<readonly LocalWalk[]>;
  /** The latest walks, sent or not, at most `most`: the hub is asked whether it still holds them, as it may have been restored from a backup. */
  latest(most: number): Promise<readonly LocalWalk[]>;
  /** Lines `from` up to `from + most - 1`, in order. */
  lines(walk: string, from: number, most: number): Promise<readonly WalkLine[]>;
  /** The hub holds lines 0 to `count - 1`. May be lower than before, after the hub has lost some. */
  setSent(walk: string, count: number): Promise<void>;
  note(walk: string, note: WalkNote): Promise<void>;

  /**
   * Photos whose line is written and which have not been sent yet, only of walks with `sent` above 0: the hub refuses a photo of a walk of which it
   * has no line, and what is refused so is never sent again. A photo that is taken while the lines go up waits for the next pass.
   */
  unsentPhotos(most: number): Promise<readonly LocalPhoto[]>;
  /** Sent, or refused for good (`why`). */
  setPhotoSent(id: string, why?: string): Promise<void>;

  /** Hashes of the editions that are on the device whole. */
  editionHashes(): Promise<readonly string[]>;
  edition(hash: string): Promise<Edition | undefined>;
  /** One fetched edition, checked already. Kept before the list that names it is. */
  keepEdition(entry: ListedEdition, edition: Edition): Promise<void>;
  /**
   * The crew's list, once every edition on it is here. Editions that it no longer names are kept for as long as a walk on them is;
   * no walk is moved to another edition.
   */
  setList(entries: readonly ListedEdition[], withdrawn: readonly WithdrawnEdition[]): Promise<void>;

  /** The drills that are kept here. */
  drills(): Promise<readonly GivenDrill[]>;
  /** The drills that this tech has now, once the editions that they need are here. Those that are not among them are stopped; one that was begun stays. */
  keepDrills(drills: readonly GivenDrill[]): Promise<void>;
  unsentDrillRuns(): Promise<readonly LocalDrillRun[]>;
  /** Sent, or refused for good (`why`). */
  drillRunSent(id: string, why?: string): Promise<void>;
};
