import { useMemo } from 'react';
import type { Edition } from '../../../engine/walk/index.ts';
import { memberHub, useDeskHub } from '../../crew/desk-hub.tsx';
import { publicationDb } from '../../publish/use-publications.ts';
import { findEdition } from './find-edition.ts';
import { hubSource, localSource, type WalkSource } from './walk-source.ts';
import { openWalksDb } from './walks-db.ts';

export const walksDb = openWalksDb();

const here = localSource(walksDb, () => new Date().toISOString());

/** Where walks can come from on this desk. `hub` only where it is in a crew, also while the hub does not answer; `looking` until that is known. */
export type WalkSources = {
  readonly here: WalkSource;
  readonly hub: WalkSource | undefined;
  readonly looking: boolean;
  readonly find: (hash: string) => Promise<Edition | undefined>;
};

export function useWalkSources(): WalkSources {
  const hub = useDeskHub();
  const { client } = hub;
  const looking = hub.state === 'looking';
  // The same sources while the hub is away for a moment: what is on the screen, and what is being typed there, hangs on them.
  const isMember = memberHub(hub) !== undefined;
  return useMemo(
    () => ({
      here,
      hub: isMember ? hubSource(client) : undefined,
      looking,
      find: (hash) =>
        findEdition(hash, { walks: walksDb, published: publicationDb, fetchPath: (path) => fetch(path), ...(isMember && { hub: client }) }),
    }),
    [looking, isMember, client],
  );
}
