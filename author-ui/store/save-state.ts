/** Whether everything is on the disk. `failed`: what is in this window is not lost, but closing it would lose it. */
export type SaveState =
  | { readonly state: 'saved' }
  | { readonly state: 'saving' }
  | { readonly state: 'failed'; readonly why: 'full' | 'refused'; readonly detail: string; readonly paths: readonly string[] };

const named = (error: unknown, name: string): boolean =>
  typeof error === 'object' &&
  error !== null &&
  (('name' in error && error.name === name) ||
    ('inner' in error && named(error.inner, name)) ||
    ('message' in error && String(error.message).includes(name)));

/** Why a write to the browser's storage failed. */
export const whyNotSaved = (error: unknown): 'full' | 'refused' => (named(error, 'QuotaExceededError') ? 'full' : 'refused');

/** What a failed save means and what to do, in words. */
export function saveFailedWords({ why, paths }: Extract<SaveState, { state: 'failed' }>): string {
  const files = paths.length === 1 ? `${paths[0]} is` : `${paths.length} files are`;
  return why === 'full'
    ? `This browser's storage is full, so ${files} not saved yet. Nothing is lost while this window is open: export now, make room, then try again.`
    : `This browser did not let the desk save, so ${files} not saved yet. Nothing is lost while this window is open: export now, or try again.`;
}
