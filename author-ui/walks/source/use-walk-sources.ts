import { useMemo } from 'react';
import type { Edition } from '../../../engine/walk/index.ts';
import { useDeskHub } from '../../crew/desk-hub.tsx';
import { publicationDb } from '../../publish/use-publications.ts';
import { findEdition } from './find-edition.ts';
import { hubSource, localSource, type WalkSource } from './walk-source.ts';
import { openWalksDb } from './walks-db.ts';

export const walksDb = openWalksDb();

const here = localSource(walksDb, () => new Date().toISOString());

/** Where walks can come from on this desk. `hub` only where it is in a crew; `looking` until that is known. */
export type WalkSources = {
  readonly here: WalkSource;
  readonly hub: WalkSource | undefined;
  readonly looking: boolean;
  readonly find: (hash: string) => Promise<Edition | undefined>;
};

export function useWalkSources(): WalkSources {
  const { state, client } = useDeskHub();
  return useMemo(() => {
    const joined = state === 'joined';
    return {
      here,
      hub: joined ? hubSource(client) : undefined,
      looking: state === 'looking',
      find: (hash) =>
        findEdition(hash, { walks: walksDb, published: publicationDb, fetchPath: (path) => fetch(path), ...(joined && { hub: client }) }),
    };
  }, [state, client]);
}
