/** Why something could not be kept on this device, or not read back. */
export type StorageProblem =
  | { readonly code: 'out-of-space' }
  | { readonly code: 'written-elsewhere' }
  | { readonly code: 'newer-version' }
  | { readonly code: 'not-available'; readonly detail: string };

function namesOf(error: unknown, depth = 0): readonly string[] {
  if (typeof error !== 'object' || error === null || depth > 4) return [];
  const name = 'name' in error && typeof error.name === 'string' ? [error.name] : [];
  const inner = 'inner' in error ? namesOf(error.inner, depth + 1) : [];
  const many = 'failures' in error && Array.isArray(error.failures) ? error.failures.flatMap((failure) => namesOf(failure, depth + 1)) : [];
  return [...name, ...inner, ...many];
}

/** What an error from IndexedDB means to the tech. The store wraps errors; the reason may lie inside. */
export function storageProblem(error: unknown): StorageProblem {
  const names = namesOf(error);
  if (names.includes('QuotaExceededError')) return { code: 'out-of-space' };
  // A line of this number is there already: another tab or window has gone on with the same walk.
  if (names.includes('ConstraintError')) return { code: 'written-elsewhere' };
  if (names.includes('VersionError')) return { code: 'newer-version' };
  return { code: 'not-available', detail: error instanceof Error ? `${error.name}: ${error.message}`.slice(0, 200) : String(error).slice(0, 200) };
}
