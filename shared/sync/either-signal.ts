/** Aborts as soon as one of the two does. `AbortSignal.any` is newer than some phones of a crew. */
export function eitherSignal(one: AbortSignal, other: AbortSignal): AbortSignal {
  const both = new AbortController();
  for (const signal of [one, other]) {
    if (signal.aborted) both.abort(signal.reason);
    else signal.addEventListener('abort', () => both.abort(signal.reason), { once: true, signal: both.signal });
  }
  return both.signal;
}
