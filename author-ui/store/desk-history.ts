/** What one step of work did to one file: its text before and after, undefined where there was none. */
export type FileChange = { readonly path: string; readonly before: string | undefined; readonly after: string | undefined };

/** One step of work, as undo takes it back. */
export type HistoryEntry = { readonly label: string; readonly changes: readonly FileChange[]; readonly at: number };

/** What was done, latest last, and what was taken back, next to be done again last. */
export type DeskHistory = { readonly done: readonly HistoryEntry[]; readonly undone: readonly HistoryEntry[] };

export const NO_HISTORY: DeskHistory = { done: [], undone: [] };

/** Typing that goes on within this many milliseconds is one step of work. */
const ONE_STROKE = 1200;

const MOST_ENTRIES = 500;

/** Adds a step of work. The same work on the same files, going on without a pause, becomes one step. */
export function withDone({ done, undone }: DeskHistory, entry: HistoryEntry): DeskHistory {
  const last = done.at(-1);
  const goesOn = last !== undefined && undone.length === 0 && last.label === entry.label && entry.at - last.at < ONE_STROKE;
  const changes = goesOn ? joinedChanges(last.changes, entry.changes) : undefined;
  if (!changes) return { done: [...done, entry].slice(-MOST_ENTRIES), undone: [] };
  return { done: [...done.slice(0, -1), { ...entry, changes }], undone: [] };
}

/** Changes and what went on in some of the same files, as one; undefined where another file joins in, or one comes or goes. */
function joinedChanges(first: readonly FileChange[], second: readonly FileChange[]): readonly FileChange[] | undefined {
  if ([...first, ...second].some(({ before, after }) => before === undefined || after === undefined)) return undefined;
  const later = new Map(second.map((change) => [change.path, change]));
  const followed = first.filter(({ path, after }) => later.get(path)?.before === after);
  if (followed.length < second.length) return undefined;
  return first.map((change) => ({ ...change, after: later.get(change.path)?.after ?? change.after }));
}

/** Takes the last step back; undefined where there is none. */
export function stepBack({ done, undone }: DeskHistory): { readonly entry: HistoryEntry; readonly history: DeskHistory } | undefined {
  const entry = done.at(-1);
  return entry && { entry, history: { done: done.slice(0, -1), undone: [...undone, entry] } };
}

/** Does again what was taken back last; undefined where nothing was. */
export function stepForward({ done, undone }: DeskHistory): { readonly entry: HistoryEntry; readonly history: DeskHistory } | undefined {
  const entry = undone.at(-1);
  // Taken up again at no time: what is done next is never taken for its continuation.
  return entry && { entry, history: { done: [...done, { ...entry, at: Number.NEGATIVE_INFINITY }], undone: undone.slice(0, -1) } };
}

/** The change that takes an entry back, or does it again. */
export const reversed = ({ changes }: HistoryEntry): readonly FileChange[] =>
  changes.map(({ path, before, after }) => ({ path, before: after, after: before }));
