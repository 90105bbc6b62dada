import { sameData } from '../../data/same-data.ts';
import type { DeskDb } from '../desk-db.ts';
import type { StoredFile } from '../desk-file.ts';
import { freePath } from '../desk-file.ts';
import type { DeskStore } from '../desk-store.ts';
import type { Merge } from '../merge-shipped.ts';
import { whyNotSaved } from '../save-state.ts';
import type { FolderEntry, FolderFiles } from './folder-files.ts';
import { type FolderConflict, isWaiting, mergeFolder, sinceWritten, wantedOf } from './merge-folder.ts';

export type FolderState =
  | { readonly at: 'reading' }
  | { readonly at: 'ready' }
  /** The browser has to be asked again whether the folder may be used. */
  | { readonly at: 'ask' }
  | { readonly at: 'stopped'; readonly why: 'gone' | 'full' | 'refused'; readonly detail: string };

/** Everything of the folder that a screen may show. */
export type FolderSnapshot = {
  readonly state: FolderState;
  readonly conflicts: readonly FolderConflict[];
  /** Paths whose change is not in the folder yet, those in conflict included. */
  readonly waiting: readonly string[];
  readonly leftAlone: readonly string[];
};

export type FolderSyncOptions = {
  readonly db: DeskDb;
  /** The folder's files; throws as the browser words it where they cannot be had. */
  readonly open: () => Promise<FolderFiles>;
  readonly permission: () => Promise<PermissionState>;
  readonly askPermission: () => Promise<PermissionState>;
  /** One window writes at a time. */
  readonly alone: <T>(work: () => Promise<T>) => Promise<T>;
  /** Runs after a pause; answers how to call it off. */
  readonly later: (work: () => void, ms: number) => () => void;
};

/** Typing that goes on faster than this is written to the folder together. */
const PAUSE = 700;

/**
 * Keeps a store and a folder the same. The store's rows have the folder's text as `base`: what differs from it is waiting to be written. The
 * browser's storage has every keystroke first, so that a window that is closed before the folder has it loses nothing.
 */
export class FolderSync {
  readonly #options: FolderSyncOptions;
  readonly #listeners = new Set<() => void>();
  /** What the folder was seen to hold. */
  readonly #seen = new Map<string, FolderEntry & { readonly text: string }>();
  /** What this window has written last, where the browser's storage could not note it. */
  readonly #written = new Map<string, string | undefined>();
  /** The path that is being written to the folder just now. */
  #writing: string | undefined;
  #store: DeskStore | undefined;
  #files: FolderFiles | undefined;
  #conflicts: readonly FolderConflict[] = [];
  #state: FolderState = { at: 'reading' };
  #leftAlone: readonly string[] = [];
  #snapshot: FolderSnapshot = { state: this.#state, conflicts: [], waiting: [], leftAlone: [] };
  #cancel: (() => void) | undefined;
  #running: Promise<void> | undefined;

  constructor(options: FolderSyncOptions) {
    this.#options = options;
  }

  readonly snapshot = (): FolderSnapshot => this.#snapshot;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** From now on writes what changes in the store; answers how to stop. */
  join(store: DeskStore): () => void {
    this.#store = store;
    let files = store.files();
    const leave = store.subscribe(() => {
      const now = store.files();
      if (now !== files || store.snapshot().save.state === 'failed') this.#schedule();
      files = now;
      this.#changed();
    });
    this.#schedule();
    return () => {
      leave();
      this.#cancel?.();
    };
  }

  /** The folder's texts as they stand now; undefined where they cannot be had, which the state then tells. */
  async texts(): Promise<ReadonlyMap<string, string> | undefined> {
    const files = await this.#opened();
    if (!files) return undefined;
    const before = this.#state;
    try {
      const { files: listed, leftAlone } = await files.list();
      const texts = new Map<string, string>();
      for (const entry of listed) {
        const seen = this.#seen.get(entry.path);
        const text = seen && seen.changed === entry.changed && seen.size === entry.size ? seen.text : await files.read(entry.path);
        if (text === undefined) continue;
        this.#seen.set(entry.path, { ...entry, text });
        texts.set(entry.path, text);
      }
      this.#leftAlone = leftAlone;
      // What a write has met meanwhile stays told; what it met before this look may be over, and is tried again.
      if (this.#state === before && before.at !== 'ready') {
        this.#state = { at: 'ready' };
        this.#schedule();
      }
      this.#changed();
      return texts;
    } catch (error) {
      this.#fail(error);
      return undefined;
    }
  }

  /** What the folder's texts make of the store's rows, which stood as in `asked` when the folder was looked at; remembers the conflicts. */
  readonly merge = (rows: ReadonlyMap<string, StoredFile>, texts: ReadonlyMap<string, string>, asked: ReadonlyMap<string, StoredFile>): Merge => {
    const { conflicts, ...merge } = mergeFolder(this.#withWritten(rows), sinceWritten(rows, texts, asked, this.#writing));
    const isNews = !sameData(conflicts, this.#conflicts);
    this.#conflicts = conflicts;
    if (isNews) {
      // A conflict that is over leaves a change that nobody else would write.
      this.#schedule();
      this.#changed();
    }
    return merge;
  };

  /** Asks for the permission, which the browser grants only on a press. */
  async allow(): Promise<void> {
    const answer = await this.#options.askPermission().catch((): PermissionState => 'denied');
    if (answer === 'granted') await this.again();
  }

  /** Reads the folder again and writes what waits. */
  async again(): Promise<void> {
    this.#files = undefined;
    await this.#store?.refresh();
    await this.write();
  }

  /** Ends a conflict. Whatever is not kept is one step back. */
  async decide(path: string, keep: 'mine' | 'theirs' | 'both'): Promise<void> {
    const store = this.#store;
    const conflict = this.#conflicts.find((one) => one.path === path);
    if (!store || !conflict) return;
    const { theirs } = conflict;
    this.#conflicts = this.#conflicts.filter((one) => one !== conflict);
    this.#written.delete(path);
    await store.settle(path, theirs);
    // Not before: what is typed while it settles is mine too.
    const mine = store.files().get(path)?.text;
    const copy = freePath(path, (other) => store.files().has(other));
    const both = keep === 'both' && mine !== undefined;
    store.apply(new Map([[path, theirs], ...(both ? [[copy, mine] as const] : [])]), `Take the folder's text of ${path}`);
    if (keep === 'mine') store.apply(new Map([[path, mine]]), `Keep your text of ${path}`);
    this.#changed();
    await this.write();
  }

  /** Writes what waits, now. Resolves when it is in the folder or cannot be. */
  write(): Promise<void> {
    this.#cancel?.();
    this.#cancel = undefined;
    const before = this.#running ?? Promise.resolve();
    const run = before.then(() => this.#writeAll()).catch((error: unknown) => this.#fail(error));
    this.#running = run;
    return run;
  }

  #schedule(): void {
    this.#cancel?.();
    this.#cancel = this.#options.later(() => void this.write(), PAUSE);
  }

  async #opened(): Promise<FolderFiles | undefined> {
    try {
      if ((await this.#options.permission()) !== 'granted') {
        this.#state = { at: 'ask' };
        this.#changed();
        return undefined;
      }
      this.#files ??= await this.#options.open();
      return this.#files;
    } catch (error) {
      this.#fail(error);
      return undefined;
    }
  }

  async #writeAll(): Promise<void> {
    const store = this.#store;
    if (!store) return;
    await store.settled();
    const rows = await this.#rowsToWrite(store);
    if (rows.length === 0) return;
    const files = await this.#opened();
    if (!files) return;
    try {
      await this.#options.alone(async () => {
        // Another window may have written them while this one waited for its turn.
        for (const row of await this.#rowsToWrite(store)) await this.#writeRow(store, files, row);
      });
      this.#state = { at: 'ready' };
    } catch (error) {
      this.#fail(error);
    }
    this.#changed();
  }

  async #writeRow(store: DeskStore, files: FolderFiles, row: StoredFile): Promise<void> {
    const { path, base } = row;
    const wanted = wantedOf(row);
    const there = await files.read(path);
    if (there !== wanted && there !== base) {
      this.#conflicts = [...this.#conflicts.filter((one) => one.path !== path), { path, theirs: there }];
      return;
    }
    this.#writing = path;
    try {
      if (there !== wanted) await (wanted === undefined ? files.remove(path) : files.write(path, wanted));
      this.#written.set(path, wanted);
      await store.settle(path, wanted);
    } finally {
      this.#writing = undefined;
    }
  }

  /** As the browser's storage has them, which every window shares; where it cannot be written to, as they stand here. */
  async #rowsToWrite(store: DeskStore): Promise<readonly StoredFile[]> {
    const stored = new Map((await this.#options.db.files.toArray().catch(() => [])).map((row) => [row.path, row]));
    if (store.snapshot().save.state === 'failed') for (const row of store.unsaved()) stored.set(row.path, row);
    const undecided = new Set(this.#conflicts.map(({ path }) => path));
    return [...this.#withWritten(stored).values()].filter((row) => isWaiting(row) && !undecided.has(row.path));
  }

  #withWritten(rows: ReadonlyMap<string, StoredFile>): ReadonlyMap<string, StoredFile> {
    if (this.#store?.snapshot().save.state !== 'failed') return rows;
    return new Map(
      [...rows].map(([path, row]) => {
        if (!this.#written.has(path)) return [path, row];
        const { base: _before, ...rest } = row;
        const base = this.#written.get(path);
        return [path, base === undefined ? rest : { ...rest, base }];
      }),
    );
  }

  #fail(error: unknown): void {
    const name = error instanceof DOMException ? error.name : '';
    if (name === 'NotAllowedError') this.#state = { at: 'ask' };
    else {
      const why = whyNotSaved(error) === 'full' ? 'full' : name === 'NotFoundError' ? 'gone' : 'refused';
      this.#state = { at: 'stopped', why, detail: error instanceof Error ? error.message : String(error) };
    }
    this.#files = undefined;
    this.#changed();
  }

  #changed(): void {
    const snapshot = this.#store?.snapshot();
    const gone = snapshot?.removed ?? [];
    const changed = [...(snapshot?.files.values() ?? [])].filter(({ text, base }) => text !== base);
    const next: FolderSnapshot = {
      state: this.#state,
      conflicts: this.#conflicts,
      waiting: [...changed, ...gone].map(({ path }) => path),
      leftAlone: this.#leftAlone,
    };
    if (sameData(next, this.#snapshot)) return;
    this.#snapshot = next;
    for (const listener of this.#listeners) listener();
  }
}
