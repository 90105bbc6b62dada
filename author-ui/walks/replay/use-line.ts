import { useCallback } from 'react';
import { walkPageAddress } from '../../desk-route.ts';
import { replaceQuery, useQuery } from '../source/use-query.ts';

/** The line that is shown, from 0. It stands in the address from 1, so that a moment of a call can be given to someone else. */
export function useLine(walk: string, place: 'hub' | 'here'): { readonly line: number; readonly goTo: (line: number) => void } {
  const asked = Number(new URLSearchParams(useQuery()).get('line'));
  const line = Number.isInteger(asked) && asked > 0 ? asked - 1 : 0;
  const goTo = useCallback(
    (to: number) => {
      const query = new URLSearchParams([...(place === 'here' ? [['here', 'yes']] : []), ['line', String(to + 1)]]);
      replaceQuery(walkPageAddress(walk), query.toString());
    },
    [walk, place],
  );
  return { line, goTo };
}
