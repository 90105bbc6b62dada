import { whyNotSaved } from '../store/save-state.ts';

/** Why the browser's storage did not take something, in a sentence. */
export const notKeptWords = (error: unknown): string =>
  whyNotSaved(error) === 'full'
    ? "this browser's storage is full."
    : `this browser refused it (${error instanceof Error ? error.message : String(error)}).`;
