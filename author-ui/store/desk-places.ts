import type { EditionEntry } from '../data/fetch-sources.ts';
import type { DeskDb } from './desk-db.ts';
import type { DeskRescue } from './desk-rescue.ts';
import { DeskStore } from './desk-store.ts';
import { type FolderDb, type KnownFolder, keepFolder, openFolderOf } from './folder/folder-db.ts';
import { type FolderHandle, folderFiles } from './folder/folder-files.ts';
import { folderSources } from './folder/folder-sources.ts';
import { FolderSync, type FolderSyncOptions } from './folder/folder-sync.ts';

/** A folder that is open: its name, and what keeps it and the store the same. */
export type OpenFolder = { readonly id: string; readonly name: string; readonly sync: FolderSync };

/** Where the desk's files are: in this browser, or in a folder. */
export type DeskPlace =
  | { readonly at: 'looking' }
  | { readonly at: 'browser'; readonly store: DeskStore }
  | { readonly at: 'folder'; readonly store: DeskStore; readonly folder: OpenFolder };

export type DeskPlacesOptions = {
  readonly folders: FolderDb;
  /** The store of the files that are kept in this browser. */
  readonly browserStore: () => DeskStore;
  readonly openDb: (name: string) => DeskDb;
  readonly openChannel: (name: string) => BroadcastChannel | undefined;
  readonly deleteDb: (name: string) => Promise<void>;
  readonly rescueOf: (name: string) => DeskRescue;
  readonly fetchEditions: () => Promise<readonly EditionEntry[]>;
  readonly now: () => number;
  readonly newId: () => string;
  readonly alone: (name: string) => FolderSyncOptions['alone'];
  readonly later: FolderSyncOptions['later'];
};

const dbName = (id: string): string => `ohmward-desk-folder-${id}`;

/** Which files the desk shows, and how to change over. */
export class DeskPlaces {
  readonly #options: DeskPlacesOptions;
  readonly #listeners = new Set<() => void>();
  #browser: DeskStore | undefined;
  #place: DeskPlace = { at: 'looking' };
  #leave: () => void = () => undefined;
  /** Opening and closing come one after the other, so that none undoes half of what the other has done. */
  #moving: Promise<unknown> = Promise.resolve();

  constructor(options: DeskPlacesOptions) {
    this.#options = options;
  }

  readonly snapshot = (): DeskPlace => this.#place;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Goes to where the desk was last. */
  async start(): Promise<void> {
    const folder = await openFolderOf(this.#options.folders).catch(() => undefined);
    if (folder) this.#enter(folder);
    else this.#toBrowser();
  }

  /** Works in a folder from now on. */
  openFolder(handle: FolderHandle): Promise<void> {
    return this.#move(async () => {
      const { folders, newId } = this.#options;
      const known = await keepFolder(folders, handle, newId).catch((): KnownFolder => ({ id: newId(), name: handle.name, handle }));
      if (this.#place.at === 'folder') await this.#place.folder.sync.write();
      this.#enter(known);
    });
  }

  /** Goes back to the files that are kept in this browser. What the folder could not be given stays, and is written when it is opened again. */
  closeFolder(): Promise<void> {
    return this.#move(async () => {
      const place = this.#place;
      if (place.at !== 'folder') return;
      const { folders, deleteDb } = this.#options;
      await folders.kept.delete('open').catch(() => undefined);
      await place.folder.sync.write();
      // The last look and the leaving are one: the page takes what is typed until then.
      const nothingWaits = place.folder.sync.snapshot().waiting.length === 0 && place.store.snapshot().save.state === 'saved';
      this.#toBrowser();
      if (!nothingWaits) return;
      await folders.folders.delete(place.folder.id).catch(() => undefined);
      await deleteDb(dbName(place.folder.id)).catch(() => undefined);
    });
  }

  /** Leaves what no store has saved yet where the next window finds it. At once: for a window that is being closed. */
  leave(): void {
    for (const store of this.#stores()) store.leave();
  }

  /** Whether there is anything that a closing window would lose. */
  get isFailing(): boolean {
    return this.#stores().some((store) => store.snapshot().save.state === 'failed');
  }

  /** The service's or the folder's files, looked at again. */
  async refresh(): Promise<void> {
    if (this.#place.at !== 'looking') await this.#place.store.refresh();
  }

  /** Gives the folder at once what it is still to have. */
  async writeNow(): Promise<void> {
    if (this.#place.at === 'folder') await this.#place.folder.sync.write();
  }

  #move(work: () => Promise<void>): Promise<void> {
    const moved = this.#moving.then(work);
    this.#moving = moved.catch(() => undefined);
    return moved;
  }

  /** The store that is shown, and that of the browser, which goes on saving while a folder is open. */
  #stores(): readonly DeskStore[] {
    const shown = this.#place.at === 'looking' ? undefined : this.#place.store;
    return [...new Set([shown, this.#browser])].filter((store) => store !== undefined);
  }

  #toBrowser(): void {
    this.#leave();
    this.#leave = () => undefined;
    if (!this.#browser) {
      this.#browser = this.#options.browserStore();
      void this.#browser.start();
    }
    this.#set({ at: 'browser', store: this.#browser });
  }

  #enter({ id, name, handle }: KnownFolder): void {
    this.#leave();
    const { openDb, openChannel, rescueOf, alone, later, now, fetchEditions } = this.#options;
    const db = openDb(dbName(id));
    const channel = openChannel(dbName(id));
    // Where the browser does not ask for a permission, there is none to ask for.
    const mode = { mode: 'readwrite' } as const;
    const sync: FolderSync = new FolderSync({
      db,
      open: () => folderFiles(handle),
      permission: async () => (await handle.queryPermission?.(mode)) ?? 'granted',
      askPermission: async () => (await handle.requestPermission?.(mode)) ?? 'granted',
      alone: alone(dbName(id)),
      later,
    });
    const store: DeskStore = new DeskStore({
      db,
      now,
      merge: sync.merge,
      rescue: rescueOf(dbName(id)),
      fetchShipped: async () => {
        // The folder last: what was read of it is not to grow old while the service is waited for.
        const editions = await fetchEditions();
        return folderSources(await sync.texts(), store.files().size + store.snapshot().removed.length > 0, editions);
      },
      ...(channel && { channel }),
    });
    const part = sync.join(store);
    this.#leave = () => {
      part();
      // What is on its way to the storage may not get there any more.
      store.leave();
      channel?.close();
      db.close();
    };
    this.#set({ at: 'folder', store, folder: { id, name, sync } });
    void store.start().then(() => sync.write());
  }

  #set(place: DeskPlace): void {
    this.#place = place;
    for (const listener of this.#listeners) listener();
  }
}
