import { liveQuery } from 'dexie';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { success } from '../../engine/result.ts';
import type { Edition } from '../../engine/walk/index.ts';
import type { HubProblem } from '../../shared/sync/hub-problem.ts';
import type { PublicationEntry } from '../../shared/sync/wire/edition-wire.ts';
import type { JoinedHub } from '../crew/desk-hub.tsx';
import { type Asked, useAsked } from '../crew/use-asked.ts';
import { withOwn } from './overtaking.ts';
import { publicationDb } from './use-publications.ts';

/** A tree as the crew has it, and what this desk's own is made from. */
export type CrewTree = {
  readonly hub: JoinedHub;
  readonly history: Asked<readonly PublicationEntry[]>;
  /** What the crew walks now; undefined where nobody has published the tree, or everything was taken back. */
  readonly head: PublicationEntry | undefined;
  /** The hash of the crew's edition that the tree here was made from; undefined where there is none, or this desk does not know. */
  readonly base: string | undefined;
  readonly setBase: (hash: string) => Promise<void>;
  /** This desk has published: from here on that is what the tree was made from. The history has it at once, before the hub is asked again. */
  readonly notePublished: (entry: PublicationEntry) => Promise<void>;
};

/** The roles that publish to the crew and take back. */
export const mayPublish = ({ me: { person } }: JoinedHub): boolean => person.role === 'senior-tech' || person.role === 'owner';

const newest = (list: readonly PublicationEntry[]): PublicationEntry | undefined => list.find(({ withdrawn }) => !withdrawn);

/** Follows what the crew has published of a tree. `undefined` while this desk's own storage is read. */
export function useCrewTree(hub: JoinedHub, name: string): CrewTree | undefined {
  const { client } = hub;
  const asked = useAsked<readonly PublicationEntry[]>(
    useCallback(async () => {
      const answer = await client.history(name);
      return answer.ok ? success(answer.value.publications) : answer;
    }, [client, name]),
  );
  const [kept, setKept] = useState<{ readonly hash?: string }>();
  useEffect(() => {
    const subscription = liveQuery(() => publicationDb.bases.get(name)).subscribe({
      next: (row) => setKept(row ? { hash: row.hash } : {}),
      // Without storage the base is not known, and the hub decides who goes first.
      error: () => setKept({}),
    });
    return () => subscription.unsubscribe();
  }, [name]);
  const setBase = useCallback(
    async (hash: string): Promise<void> => {
      setKept({ hash });
      await publicationDb.bases.put({ tree: name, hash }).catch(() => undefined);
    },
    [name],
  );
  const [own, setOwn] = useState<PublicationEntry>();
  const { value: told, again } = asked;
  const list = useMemo(() => told && withOwn(told, own?.name === name ? own : undefined), [told, own, name]);
  const notePublished = useCallback(
    async (entry: PublicationEntry): Promise<void> => {
      // Together with the base: a base that the history does not have would look overtaken.
      setOwn(entry);
      await setBase(entry.hash);
      again();
    },
    [setBase, again],
  );
  const history = list ? { ...asked, value: list } : asked;
  return kept && { hub, history, head: newest(list ?? []), base: kept.hash, setBase, notePublished };
}

export type CrewText =
  | { readonly state: 'none' | 'asking' }
  | { readonly state: 'away'; readonly problem: HubProblem }
  | { readonly state: 'there'; readonly hash: string; readonly edition: Edition };

/** What the hub has given since the desk was opened: an edition never changes under its hash. */
const given = new Map<string, Edition>();

/** An edition by its hash, from the hub. */
export function useCrewText({ client }: JoinedHub, hash: string | undefined): CrewText {
  const [found, setFound] = useState<
    Extract<CrewText, { state: 'there' }> | { readonly state: 'away'; readonly hash: string; readonly problem: HubProblem }
  >();
  useEffect(() => {
    if (hash === undefined || given.has(hash)) return;
    let left = false;
    void client.edition(hash).then((answer) => {
      if (answer.ok) given.set(hash, answer.value);
      if (left) return;
      setFound(answer.ok ? { state: 'there', hash, edition: answer.value } : { state: 'away', hash, problem: answer.problem });
    });
    return () => {
      left = true;
    };
  }, [client, hash]);
  if (hash === undefined) return { state: 'none' };
  const edition = given.get(hash);
  if (edition) return { state: 'there', hash, edition };
  return found?.hash === hash ? found : { state: 'asking' };
}
