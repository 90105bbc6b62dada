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

/** Adds a step of work. The same work on the same file, going on without a pause, becomes one step. */
export function withDone({ done, undone }: DeskHistory, entry: HistoryEntry): DeskHistory {
  const last = done.at(-1);
  const [change, ...others] = entry.changes;
  const [lastChange, ...lastOthers] = last?.changes ?? [];
  const goesOn =
    last !== undefined &&
    undone.length === 0 &&
    others.length === 0 &&
    lastOthers.length === 0 &&
    last.label === entry.label &&
    entry.at - last.at < ONE_STROKE &&
    change !== undefined &&
    lastChange?.path === change.path &&
    lastChange.after === change.before &&
    lastChange.before !== undefined &&
    change.after !== undefined;
  if (!goesOn) return { done: [...done, entry].slice(-MOST_ENTRIES), undone: [] };
  const merged: HistoryEntry = { ...entry, changes: [{ path: change.path, before: lastChange.before, after: change.after }] };
  return { done: [...done.slice(0, -1), merged], undone: [] };
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
