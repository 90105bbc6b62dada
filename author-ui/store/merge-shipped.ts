import type { StoredFile } from './desk-file.ts';

/** What the service's files make of the stored ones: rows to write, and rows to forget. */
export type Merge = { readonly put: readonly StoredFile[]; readonly forget: readonly string[] };

/**
 * A local copy wins; a file that was never touched here follows the service; one that was removed here stays removed. What the service
 * no longer has is forgotten unless it was changed here.
 */
export function mergeShipped(stored: ReadonlyMap<string, StoredFile>, shipped: ReadonlyMap<string, string>): Merge {
  const put: StoredFile[] = [];
  const forget: string[] = [];
  for (const [path, text] of shipped) {
    const before = stored.get(path);
    // A row that was only here and is removed has nothing to say of a file that comes under its name.
    if (!before || (before.removed && before.base === undefined))
      put.push({ path, text, base: text, changedAt: 0, version: (before?.version ?? 0) + 1 });
    else if (before.base === text) continue;
    else if (before.removed || before.text !== before.base) put.push({ ...before, base: text });
    else put.push({ ...before, text, base: text, version: before.version + 1 });
  }
  for (const [path, file] of stored) {
    if (shipped.has(path) || file.base === undefined) continue;
    if (file.removed || file.text === file.base) forget.push(path);
    else {
      const { base: _gone, ...rest } = file;
      put.push(rest);
    }
  }
  return { put, forget };
}
