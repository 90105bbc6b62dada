import { type StorageProblem, storageProblem } from './storage-problem.ts';

/** Three sentences of every message about storage: what happened, what is safe, what to do. */
export type SafetyWords = { readonly happened: string; readonly safe: string; readonly todo: string };

const SAFE = 'Everything entered before is safe on this device. The last entry is not: it was not taken.';

export function storageWords(problem: StorageProblem): SafetyWords {
  switch (problem.code) {
    case 'out-of-space':
      return {
        happened: 'This device has no room left to keep the entry.',
        safe: SAFE,
        todo: 'Free some space (photos and videos take the most), then enter it again. You can save this call’s log as a file first.',
      };
    case 'written-elsewhere':
      return {
        happened: 'This call has gone on in another tab or window.',
        safe: 'What was entered there is safe. The last entry here was not taken.',
        todo: 'Load the call again here to see where it stands, or go on in the other tab.',
      };
    case 'newer-version':
      return {
        happened: 'A newer version of the app has stored its data on this device.',
        safe: 'Nothing is lost.',
        todo: 'Close every tab of Ohmward and open it again, so that the newer version runs.',
      };
    case 'not-available':
      return {
        happened: `The browser could not reach its storage (${problem.detail}).`,
        safe: SAFE,
        todo: 'Try again. If it stays, close the app and open it; in a private window nothing can be kept.',
      };
  }
}

/** What an error of the storage is told as where there is one line for it. */
export function storageErrorWords(error: unknown): string {
  const { happened, todo } = storageWords(storageProblem(error));
  return `${happened} ${todo}`;
}
