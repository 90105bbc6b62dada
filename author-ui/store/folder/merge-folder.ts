import type { StoredFile } from '../desk-file.ts';
import { type Merge, mergeShipped } from '../merge-shipped.ts';

/** A file that was changed here and in the folder since the two were last the same; `theirs` is undefined where it is gone from the folder. */
export type FolderConflict = { readonly path: string; readonly theirs: string | undefined };

/** Whether the folder is still to have what was done to a file here. */
export const isWaiting = ({ removed, text, base }: StoredFile): boolean => (removed ? base !== undefined : text !== base);

/** What the folder is to have under a path; undefined where it is to have nothing. */
export const wantedOf = ({ removed, text }: StoredFile): string | undefined => (removed ? undefined : text);

/**
 * What the folder's texts make of the stored rows. A file that was not touched here follows the folder. One that was, and that another program
 * changed too, is a conflict: its row stays as it is until someone decides.
 */
export function mergeFolder(
  rows: ReadonlyMap<string, StoredFile>,
  texts: ReadonlyMap<string, string>,
): Merge & { readonly conflicts: readonly FolderConflict[] } {
  const conflicts: FolderConflict[] = [];
  const seen = new Map(texts);
  for (const row of rows.values()) {
    const theirs = texts.get(row.path);
    if (!isWaiting(row) || theirs === row.base || theirs === wantedOf(row)) continue;
    conflicts.push({ path: row.path, theirs });
    if (row.base === undefined) seen.delete(row.path);
    else seen.set(row.path, row.base);
  }
  return { ...mergeShipped(rows, seen), conflicts };
}

/**
 * The folder's texts without those that may be older than what is known of them. A folder is read while this and other windows go on writing to
 * it: where a row's base is another than when the reading began, or a path is `writing` just now, the next look tells.
 */
export function sinceWritten(
  rows: ReadonlyMap<string, StoredFile>,
  texts: ReadonlyMap<string, string>,
  asked: ReadonlyMap<string, StoredFile>,
  writing: string | undefined,
): ReadonlyMap<string, string> {
  const now = new Map(texts);
  for (const path of new Set([...rows.keys(), ...asked.keys()])) {
    const base = rows.get(path)?.base;
    if (base === asked.get(path)?.base && path !== writing) continue;
    if (base === undefined) now.delete(path);
    else now.set(path, base);
  }
  return now;
}
