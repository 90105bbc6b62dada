import type { Confirmation } from '../../../engine/review/index.ts';

/** Counted up when a measure is defined otherwise, so that what was worked out before is worked out again. */
const DEFINITIONS = 1;

/** What a review depends on: the log's last line, which names all before it, how many there are, and what was said of the finding. */
export function reviewKey(walk: string, lines: readonly unknown[], confirmation: Confirmation | undefined): string {
  const last = lines.at(-1);
  const head = typeof last === 'object' && last !== null && 'hash' in last ? String(last.hash) : '';
  return JSON.stringify([DEFINITIONS, walk, lines.length, head, confirmation?.held, confirmation?.bench, confirmation?.fault]);
}

/** What a list says was learnt of a finding, as a review takes it. */
export const confirmationOf = (
  told: { readonly held?: boolean | undefined; readonly bench?: string | undefined; readonly fault?: string | undefined } | undefined,
): Confirmation | undefined =>
  told?.held === undefined
    ? undefined
    : { held: told.held, ...(told.fault !== undefined && { fault: told.fault }), ...(told.bench !== undefined && { bench: told.bench }) };
