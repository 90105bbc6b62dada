import type { Result } from '../../engine/result.ts';
import type { EditionEntry, FetchProblem, Sources } from '../data/fetch-sources.ts';
import type { DeskDb } from './desk-db.ts';
import { benchPath, type DeskFile, freePath, type StoredFile, treePath } from './desk-file.ts';
import { type DeskHistory, type FileChange, type HistoryEntry, NO_HISTORY, reversed, stepBack, stepForward, withDone } from './desk-history.ts';
import type { DeskNotice } from './desk-notice.ts';
import type { DeskRescue } from './desk-rescue.ts';
import { type Merge, mergeShipped } from './merge-shipped.ts';
import { type SaveState, whyNotSaved } from './save-state.ts';
import { openWindowLink, type WindowLink } from './window-link.ts';

/** Whether there is anything to show. `failed` only where nothing is stored here and the service does not answer. */
export type StoreLoad = { readonly state: 'loading' } | { readonly state: 'ready' } | { readonly state: 'failed'; readonly problem: FetchProblem };

/** Everything of the store that a screen may show, as one value that never changes; a new one is made for every change. */
export type DeskSnapshot = {
  readonly load: StoreLoad;
  readonly files: ReadonlyMap<string, DeskFile>;
  /** Files of the service that were removed here; writing their `base` puts them back. */
  readonly removed: readonly DeskFile[];
  readonly editions: readonly EditionEntry[];
  readonly save: SaveState;
  readonly notices: readonly DeskNotice[];
  /** What undo would take back and redo would do again; undefined where there is nothing. */
  readonly canUndo: string | undefined;
  readonly canRedo: string | undefined;
};

export type DeskStoreOptions = {
  readonly db: DeskDb;
  /** The shipped sources as they stand on the service now. */
  readonly fetchShipped: () => Promise<Result<Sources, FetchProblem>>;
  readonly now: () => number;
  /**
   * What the texts that `fetchShipped` gave make of the stored rows; `asked` are the rows as they stood when it was asked. A local copy wins
   * where it is left out.
   */
  readonly merge?: (rows: ReadonlyMap<string, StoredFile>, shipped: ReadonlyMap<string, string>, asked: ReadonlyMap<string, StoredFile>) => Merge;
  /** What a window that was closed in the middle of saving has left. */
  readonly rescue?: DeskRescue;
  /** Joins the windows of the desk; none in a test of one window. */
  readonly channel?: BroadcastChannel;
};

/**
 * The desk's files: in memory for the screen, in the browser's storage for good. Every write is in memory at once and counts as saved when
 * it is on the disk. One history of steps goes over all files.
 */
export class DeskStore {
  readonly #db: DeskDb;
  readonly #fetchShipped: DeskStoreOptions['fetchShipped'];
  readonly #now: () => number;
  readonly #merge: NonNullable<DeskStoreOptions['merge']>;
  readonly #rescue: DeskRescue | undefined;
  readonly #windows: WindowLink;
  #inFlight: { readonly path: string; readonly text: string } | undefined;
  readonly #listeners = new Set<() => void>();
  #rows: ReadonlyMap<string, StoredFile> = new Map();
  /** Paths whose text in memory is not on the disk yet. */
  readonly #unsaved = new Set<string>();
  readonly #held = new Map<string, number>();
  #flushing: Promise<void> | undefined;
  #failure: { readonly why: 'full' | 'refused'; readonly detail: string } | undefined;
  #history: DeskHistory = NO_HISTORY;
  #load: StoreLoad = { state: 'loading' };
  #editions: readonly EditionEntry[] = [];
  #notices: readonly DeskNotice[] = [];
  #snapshot: DeskSnapshot;
  #files: ReadonlyMap<string, DeskFile> = new Map();

  constructor({ db, fetchShipped, now, merge = mergeShipped, rescue, channel }: DeskStoreOptions) {
    this.#db = db;
    this.#fetchShipped = fetchShipped;
    this.#now = now;
    this.#merge = merge;
    this.#rescue = rescue;
    this.#windows = openWindowLink(channel, {
      changed: (path) => void this.#follow(path),
      openElsewhere: (path) => this.#notify({ code: 'open-elsewhere', path }),
      isHeld: (path) => this.#held.has(path),
    });
    this.#snapshot = this.#makeSnapshot();
  }

  /** Reads what is stored, then asks the service. Resolves when both are done. */
  async start(): Promise<void> {
    try {
      const [rows, kept] = await Promise.all([this.#db.files.toArray(), this.#db.kept.get('editions')]);
      this.#rows = new Map(rows.map((row) => [row.path, row]));
      this.#editions = kept?.editions ?? [];
      if (rows.length > 0) this.#load = { state: 'ready' };
      this.#takeRescued();
    } catch (error) {
      this.#failure = { why: whyNotSaved(error), detail: String(error) };
    }
    this.#changed();
    await this.refresh();
  }

  /** Takes up what a closed window had not saved. Where its file has been changed elsewhere since, it is kept beside it, as from any window. */
  #takeRescued(): void {
    const { rows: left, done } = this.#rescue?.take() ?? { rows: [], done: () => undefined };
    if (left.length === 0) return;
    const rows = new Map(this.#rows);
    for (const { row, inFlight } of left) {
      const there = rows.get(row.path);
      // The write that was under way when the window closed may have come through.
      const cameThrough = there !== undefined && there.version === row.version + 1 && there.text === inFlight;
      rows.set(row.path, { ...row, version: cameThrough ? there.version : row.version });
      this.#unsaved.add(row.path);
    }
    this.#rows = rows;
    void this.#flush().then(() => {
      if (this.#unsaved.size === 0) done();
    });
  }

  /** Asks the service for its files again. What is here stays where it does not answer. */
  async refresh(): Promise<void> {
    const asked = this.#rows;
    const shipped = await this.#fetchShipped();
    if (!shipped.ok) {
      if (this.#load.state !== 'ready') this.#load = { state: 'failed', problem: shipped.problem };
      this.#changed();
      return;
    }
    const { trees, benches, figures, editions } = shipped.value;
    const texts = new Map([
      ...Object.entries(trees).map(([name, text]) => [treePath(name), text] as const),
      ...Object.entries(benches).map(([name, text]) => [benchPath(name), text] as const),
      ...Object.entries(figures),
    ]);
    const { put, forget } = this.#merge(this.#rows, texts, asked);
    const rows = new Map(this.#rows);
    for (const row of put) rows.set(row.path, row);
    for (const path of forget) rows.delete(path);
    this.#rows = rows;
    const sameEditions = JSON.stringify(editions) === JSON.stringify(this.#editions);
    if (!sameEditions) this.#editions = editions;
    const wasReady = this.#load.state === 'ready';
    this.#load = { state: 'ready' };
    if (put.length > 0 || forget.length > 0 || !sameEditions || !wasReady) this.#changed();
    // Only so that the desk opens without the service too: what cannot be kept is fetched again.
    await this.#db
      .transaction('rw', this.#db.files, this.#db.kept, async () => {
        const there = await this.#db.files.bulkGet(put.map(({ path }) => path));
        // What another window has written meanwhile is newer than what is known here.
        const isNews = (row: StoredFile, stored: StoredFile | undefined): boolean =>
          !stored || stored.version < row.version || (stored.version === row.version && stored.text === row.text);
        await this.#db.files.bulkPut(put.filter((row, place) => !this.#unsaved.has(row.path) && isNews(row, there[place])));
        await this.#db.files.bulkDelete([...forget]);
        await this.#db.kept.put({ key: 'editions', editions });
      })
      .catch(() => undefined);
  }

  files(): ReadonlyMap<string, DeskFile> {
    return this.#snapshot.files;
  }

  readonly snapshot = (): DeskSnapshot => this.#snapshot;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** The label of the step that `undo` takes back. */
  get canUndo(): string | undefined {
    return this.#snapshot.canUndo;
  }

  get canRedo(): string | undefined {
    return this.#snapshot.canRedo;
  }

  write(path: string, text: string, label: string): void {
    this.apply(new Map([[path, text]]), label);
  }

  remove(path: string, label: string): void {
    this.apply(new Map([[path, undefined]]), label);
  }

  /** Gives a file another path; where that is taken already, nothing happens and the answer is false. */
  rename(path: string, to: string, label: string): boolean {
    const file = this.#files.get(path);
    if (!file || path === to || this.#files.has(to)) return false;
    this.apply(
      new Map([
        [path, undefined],
        [to, file.text],
      ]),
      label,
    );
    return true;
  }

  /** Changes several files as one step of work; undefined removes. */
  apply(edits: ReadonlyMap<string, string | undefined>, label: string): void {
    const changes = [...edits]
      .map(([path, after]): FileChange => ({ path, before: this.#files.get(path)?.text, after }))
      .filter(({ before, after }) => before !== after);
    if (changes.length === 0) return;
    this.#history = withDone(this.#history, { label, changes, at: this.#now() });
    this.#take(changes);
  }

  readonly undo = (): void => {
    const back = stepBack(this.#history);
    if (back) this.#travel(back.entry, reversed(back.entry), back.history);
  };

  readonly redo = (): void => {
    const forward = stepForward(this.#history);
    if (forward) this.#travel(forward.entry, forward.entry.changes, forward.history);
  };

  /** Says that a file is being edited in this window until the answer is called. */
  hold(path: string): () => void {
    this.#held.set(path, (this.#held.get(path) ?? 0) + 1);
    this.#windows.hello(path);
    return () => {
      const left = (this.#held.get(path) ?? 1) - 1;
      if (left > 0) this.#held.set(path, left);
      else this.#held.delete(path);
    };
  }

  dismiss(notice: DeskNotice): void {
    this.#notices = this.#notices.filter((one) => one !== notice);
    this.#changed();
  }

  /** Leaves what is not saved yet where the next window finds it. At once: for a window that is being closed. */
  leave(): void {
    this.#rescue?.leave(this.unsaved().map((row) => ({ row, ...(this.#inFlight?.path === row.path && { inFlight: this.#inFlight.text }) })));
  }

  /** Rows that are not in the browser's storage as they stand here. */
  unsaved(): readonly StoredFile[] {
    return [...this.#unsaved].flatMap((path) => this.#rows.get(path) ?? []);
  }

  /** Says which text is now under a path where the files come from; undefined where there is none any more. */
  async settle(path: string, base: string | undefined): Promise<void> {
    const based = (row: StoredFile): StoredFile => {
      const { base: _before, ...rest } = row;
      return base === undefined ? rest : { ...rest, base };
    };
    const row = this.#rows.get(path);
    if (row) this.#rows = new Map(this.#rows).set(path, based(row));
    this.#changed();
    // Where it cannot be kept, the next look at the files tells it again.
    await this.#db
      .transaction('rw', this.#db.files, async () => {
        const there = await this.#db.files.get(path);
        if (there) await this.#db.files.put(based(there));
      })
      .catch(() => undefined);
    this.#windows.changed(path);
  }

  /** Tries again to save what could not be saved. */
  retry(): Promise<void> {
    this.#failure = undefined;
    return this.#flush();
  }

  /** Resolves when nothing is waiting to be written, or writing has failed. */
  async settled(): Promise<void> {
    while (this.#flushing) await this.#flushing;
  }

  #travel(entry: HistoryEntry, changes: readonly FileChange[], history: DeskHistory): void {
    const moved = changes.find(({ path, before }) => this.#files.get(path)?.text !== before);
    this.#history = moved ? { done: history.done.filter((one) => one !== entry), undone: history.undone.filter((one) => one !== entry) } : history;
    if (moved) this.#notify({ code: 'not-undone', path: moved.path, label: entry.label });
    else this.#take(changes);
  }

  #take(changes: readonly FileChange[]): void {
    const rows = new Map(this.#rows);
    for (const { path, after } of changes) {
      const before = rows.get(path);
      const base = before?.base === undefined ? {} : { base: before.base };
      const version = before?.version ?? 0;
      const changedAt = after !== undefined && after === before?.base ? 0 : this.#now();
      rows.set(path, { path, text: after ?? before?.text ?? '', ...base, changedAt, version, ...(after === undefined && { removed: true }) });
      this.#unsaved.add(path);
    }
    this.#rows = rows;
    this.#failure = undefined;
    this.#changed();
    void this.#flush();
  }

  #flush(): Promise<void> {
    this.#flushing ??= this.#writeAll().finally(() => {
      this.#flushing = undefined;
      this.#changed();
    });
    this.#changed();
    return this.#flushing;
  }

  async #writeAll(): Promise<void> {
    while (this.#unsaved.size > 0) {
      const [path] = this.#unsaved;
      const row = path === undefined ? undefined : this.#rows.get(path);
      if (path === undefined) return;
      try {
        this.#inFlight = row && { path, text: row.text };
        const written = row ? await this.#writeRow(row) : true;
        this.#inFlight = undefined;
        if (!written) await this.#keepBoth(path);
        // Typed on while it was being written: once more.
        else if (this.#rows.get(path)?.text === row?.text && this.#rows.get(path)?.removed === row?.removed) this.#unsaved.delete(path);
      } catch (error) {
        this.#failure = { why: whyNotSaved(error), detail: String(error) };
        return;
      }
    }
    this.#failure = undefined;
  }

  /** False where another window has written the file since this one last saw it. */
  async #writeRow(row: StoredFile): Promise<boolean> {
    const version = await this.#db.transaction('rw', this.#db.files, async () => {
      const there = await this.#db.files.get(row.path);
      // A window that only looked at where the files come from counts on too: what it found is what this row began from, and nobody's work.
      const isOnlySeen = there !== undefined && !there.removed && there.text === there.base && there.base === row.base;
      if ((there?.version ?? 0) > row.version && !isOnlySeen) return undefined;
      const next = Math.max(row.version, there?.version ?? 0) + 1;
      // What is under the path elsewhere is known best by whoever looked last.
      const { base: _mine, ...mine } = row;
      const base = there ? there.base : row.base;
      await this.#db.files.put({ ...mine, version: next, ...(base !== undefined && { base }) });
      return next;
    });
    if (version === undefined) return false;
    const rows = new Map(this.#rows);
    const now = rows.get(row.path);
    if (now) rows.set(row.path, { ...now, version });
    this.#rows = rows;
    this.#windows.changed(row.path);
    return true;
  }

  /** The other window's text keeps the name; this window's goes beside it under another. */
  async #keepBoth(path: string): Promise<void> {
    const [theirs, paths] = await Promise.all([this.#db.files.get(path), this.#db.files.toCollection().primaryKeys()]);
    // Nothing is waited for from here on: what was typed until now, in this file and in others, is in the rows.
    const stored = new Set(paths);
    const mine = this.#rows.get(path);
    const rows = new Map(this.#rows);
    this.#unsaved.delete(path);
    if (theirs) rows.set(path, theirs);
    else rows.delete(path);
    if (mine && !mine.removed && mine.text !== theirs?.text) {
      const copy = freePath(path, (other) => rows.has(other) || stored.has(other));
      rows.set(copy, { path: copy, text: mine.text, changedAt: this.#now(), version: 0 });
      this.#unsaved.add(copy);
      this.#notices = [...this.#notices, { code: 'kept-both', path, copy }];
    }
    this.#rows = rows;
    this.#changed();
  }

  /** Takes over what another window wrote, unless this one has something of its own to write there first. */
  async #follow(path: string): Promise<void> {
    const theirs = await this.#db.files.get(path).catch(() => undefined);
    const mine = this.#rows.get(path);
    if (!theirs || this.#unsaved.has(path)) return;
    const isNews = theirs.version > (mine?.version ?? 0) || (theirs.version === mine?.version && theirs.base !== mine.base);
    if (!isNews) return;
    this.#rows = new Map(this.#rows).set(path, theirs);
    if (this.#held.has(path) && theirs.text !== mine?.text) this.#notify({ code: 'followed', path });
    this.#changed();
  }

  #notify(notice: DeskNotice): void {
    this.#notices = [...this.#notices.filter((one) => one.code !== notice.code || one.path !== notice.path), notice];
    this.#changed();
  }

  #saveState(): SaveState {
    if (this.#failure && this.#unsaved.size > 0) return { state: 'failed', ...this.#failure, paths: [...this.#unsaved] };
    return { state: this.#unsaved.size > 0 ? 'saving' : 'saved' };
  }

  #makeSnapshot(): DeskSnapshot {
    const rows = [...this.#rows.values()];
    const shown = (row: StoredFile): DeskFile => row;
    const files = new Map(rows.filter(({ removed }) => !removed).map((row) => [row.path, shown(row)]));
    // The same files are the same value, so that what is made from them need not be made again.
    const same = files.size === this.#files.size && [...files].every(([path, file]) => sameFile(file, this.#files.get(path)));
    if (!same) this.#files = files;
    return {
      load: this.#load,
      files: this.#files,
      removed: rows.filter(({ removed, base }) => removed && base !== undefined),
      editions: this.#editions,
      save: this.#saveState(),
      notices: this.#notices,
      canUndo: this.#history.done.at(-1)?.label,
      canRedo: this.#history.undone.at(-1)?.label,
    };
  }

  #changed(): void {
    this.#snapshot = this.#makeSnapshot();
    for (const listener of this.#listeners) listener();
  }
}

const sameFile = (a: DeskFile, b: DeskFile | undefined): boolean =>
  b !== undefined && a.text === b.text && a.base === b.base && a.changedAt === b.changedAt;
