import { useEffect, useMemo, useState } from 'react';
import { editionHash, readEdition, type WalkableEdition, walkableEdition } from '../../engine/walk/index.ts';
import type { HubClient } from '../../shared/sync/hub-client.ts';
import { type DeskHub, memberHub, useDeskHub } from '../crew/desk-hub.tsx';
import { useAgainWhenBack } from '../crew/use-again-when-back.ts';
import { publicationDb } from '../publish/use-publications.ts';
import { useDeskSnapshot } from '../store/use-desk-store.ts';

/** An edition that a drill can be made of. `own`: published in this browser only. */
export type DrillEdition = { readonly hash: string; readonly name: string; readonly title: string; readonly own: boolean };

/** What the crew walks now, or what the service gives, and what was published in this browser. Undefined until it is known. */
export function useDrillEditions(): readonly DrillEdition[] | undefined {
  const hub = useDeskHub();
  const { editions: shipped } = useDeskSnapshot();
  const [listed, setListed] = useState<readonly Omit<DrillEdition, 'own'>[]>();
  const [own, setOwn] = useState<readonly DrillEdition[]>();
  const { client } = hub;
  const [asked, setAsked] = useState({ round: 0, failed: false });
  useAgainWhenBack(asked.failed, () => setAsked(({ round }) => ({ round: round + 1, failed: false })));
  const isLooking = hub.state === 'looking';
  const isMember = memberHub(hub) !== undefined;
  const { round } = asked;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new round asks the same again.
  useEffect(() => {
    let left = false;
    if (isLooking) return;
    if (!isMember) {
      setListed(shipped);
      return;
    }
    void client.editions().then((answer) => {
      if (left) return;
      setListed((answer.ok && answer.value.list?.entries) || shipped);
      setAsked((before) => ({ ...before, failed: !answer.ok }));
    });
    return () => {
      left = true;
    };
  }, [isLooking, isMember, client, shipped, round]);
  useEffect(() => {
    let left = false;
    publicationDb.publications.toArray().then(
      (list) => !left && setOwn(list.map(({ hash, name, title }) => ({ hash, name, title, own: true }))),
      () => !left && setOwn([]),
    );
    return () => {
      left = true;
    };
  }, []);
  return useMemo(() => {
    if (!listed || !own) return undefined;
    const here = listed.map(({ hash, name, title }) => ({ hash, name, title, own: false }));
    return [...here, ...own.filter(({ hash }) => !here.some((other) => other.hash === hash))];
  }, [listed, own]);
}

const ready = new Map<string, WalkableEdition>();

/** An edition by its hash, from the hub, the service or this browser; checked that it is that one. */
async function fetchEdition(hash: string, client: HubClient | undefined): Promise<WalkableEdition | undefined> {
  const known = ready.get(hash);
  if (known) return known;
  const readOf = (input: unknown): WalkableEdition | undefined => {
    const read = readEdition(input);
    return read.ok && editionHash(read.value) === hash ? walkableEdition(read.value) : undefined;
  };
  const own = await publicationDb.publications.get(hash).catch(() => undefined);
  let found = own && readOf(own.edition);
  if (!found && client) {
    const answer = await client.edition(hash);
    found = answer.ok ? walkableEdition(answer.value) : undefined;
  }
  if (!found) {
    const shipped: unknown = await fetch(`/editions/${hash}.json`)
      .then((answer) => (answer.ok ? answer.json() : undefined))
      .catch(() => undefined);
    found = readOf(shipped);
  }
  if (found) ready.set(hash, found);
  return found;
}

export type LoadedEdition =
  | { readonly state: 'none' }
  | { readonly state: 'loading' }
  | { readonly state: 'missing' }
  | { readonly state: 'there'; readonly edition: WalkableEdition };

export function useLoadedEdition(hash: string | undefined, hub: DeskHub): LoadedEdition {
  const [found, setFound] = useState<{ readonly hash: string; readonly edition: WalkableEdition | undefined }>();
  const isLooking = hub.state === 'looking';
  const client = memberHub(hub)?.client;
  useEffect(() => {
    if (hash === undefined || isLooking) return;
    let left = false;
    void fetchEdition(hash, client).then((edition) => !left && setFound({ hash, edition }));
    return () => {
      left = true;
    };
  }, [hash, isLooking, client]);
  if (hash === undefined) return { state: 'none' };
  if (found?.hash !== hash) return { state: 'loading' };
  return found.edition ? { state: 'there', edition: found.edition } : { state: 'missing' };
}
