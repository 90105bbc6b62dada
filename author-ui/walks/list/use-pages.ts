import { useCallback, useEffect, useState } from 'react';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import type { WalkFilter } from '../source/walk-filter.ts';
import type { SourceProblem, WalkSource } from '../source/walk-source.ts';

/** A list as far as it was turned to. */
export type Pages = {
  readonly walks: readonly WalkSummary[];
  readonly state: 'loading' | 'ready' | 'failed';
  readonly problem?: SourceProblem;
  readonly next?: string;
};

/** `fresh`: the answer begins the list anew. */
const withPage = (before: Pages, page: { readonly walks: readonly WalkSummary[]; readonly next?: string | undefined }, fresh: boolean): Pages => {
  const seen = new Set(fresh ? [] : before.walks.map(({ walk }) => walk));
  // A call that has come in between may move one to the next page: it is shown once.
  const walks = [...(fresh ? [] : before.walks), ...page.walks.filter(({ walk }) => !seen.has(walk))];
  return { walks, state: 'ready', ...(page.next !== undefined && { next: page.next }) };
};

/** Walks of a source page by page; from the beginning whenever the filter or `round` changes. */
export function usePages(
  source: WalkSource | undefined,
  filter: WalkFilter,
  round: number,
): Pages & { readonly more: () => void; readonly again: () => void } {
  const [pages, setPages] = useState<Pages>({ walks: [], state: 'loading' });
  const [tries, setTries] = useState(0);
  // Made anew by every press, so that a page that did not come is asked for again.
  const [further, setFurther] = useState<{ readonly after: string }>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: another round or try asks the same again.
  useEffect(() => {
    if (!source) return;
    let left = false;
    setFurther(undefined);
    setPages((before) => ({ ...before, state: 'loading' }));
    void source.list(filter).then((answer) => {
      if (left) return;
      setPages((before) => (answer.ok ? withPage(before, answer.value, true) : { ...before, state: 'failed', problem: answer.problem }));
    });
    return () => {
      left = true;
    };
  }, [source, filter, round, tries]);
  useEffect(() => {
    if (!source || !further) return;
    let left = false;
    setPages((before) => ({ ...before, state: 'loading' }));
    void source.list(filter, further.after).then((answer) => {
      if (left) return;
      setPages((before) => (answer.ok ? withPage(before, answer.value, false) : { ...before, state: 'failed', problem: answer.problem }));
    });
    return () => {
      left = true;
    };
  }, [source, filter, further]);
  const { next } = pages;
  const more = useCallback(() => setFurther(next === undefined ? undefined : { after: next }), [next]);
  const again = useCallback(() => setTries((before) => before + 1), []);
  return { ...pages, more, again };
}
