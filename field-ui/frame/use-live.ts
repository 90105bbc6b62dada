import { liveQuery } from 'dexie';
import { useEffect, useState } from 'react';

/** What a query of the store gives, again whenever the store changes, in any tab. `failed` where it cannot be read. */
export type Live<T> =
  | { readonly status: 'loading' }
  | { readonly status: 'ready'; readonly value: T }
  | { readonly status: 'failed'; readonly error: unknown };

/** `query` must be the same function as long as it asks the same. */
export function useLive<T>(query: () => Promise<T>): Live<T> {
  const [live, setLive] = useState<Live<T>>({ status: 'loading' });
  useEffect(() => {
    const subscription = liveQuery(query).subscribe({
      next: (value) => setLive({ status: 'ready', value }),
      error: (error: unknown) => setLive({ status: 'failed', error }),
    });
    return () => subscription.unsubscribe();
  }, [query]);
  return live;
}
