import { type Edition, type WalkableEdition, walkableEdition } from '../../../engine/walk/index.ts';
import type { ChosenFile } from '../../data/read-chosen.ts';
import { mergedLog, type Opened, readOpened } from './read-opened.ts';
import { sumUpLog } from './sum-up-log.ts';
import type { KeptWalk, WalksDb } from './walks-db.ts';

/** What came of opening files. `editionless`: hashes of editions that walks were walked on and that are nowhere to be found. */
export type KeptFiles = {
  readonly walks: number;
  readonly editions: number;
  readonly neither: readonly Extract<Opened, { is: 'neither' }>[];
  /** Names of files that could not be read at all. */
  readonly unreadable: readonly string[];
  readonly editionless: readonly string[];
};

/** Keeps the logs and editions of opened files in this browser. A walk that was there before goes on where the file goes on from it. */
export async function keepOpened(
  db: WalksDb,
  files: readonly ChosenFile[],
  find: (hash: string) => Promise<Edition | undefined>,
  now: string,
): Promise<KeptFiles> {
  const opened = files.map(readOpened);
  const editions = opened.flatMap((one) => (one.is === 'edition' ? [{ hash: one.hash, edition: one.edition }] : []));
  await db.editions.bulkPut(editions);
  const logs = opened.flatMap((one) => (one.is === 'logs' ? one.logs.map((log) => ({ ...log, file: one.file })) : []));
  const walkable = walkables(find);
  const missing = new Set<string>();
  let walks = 0;
  for (const { walk, edition, lines, aside, file } of logs) {
    const before = await db.walks.get(walk);
    const merged = before ? mergedLog(before, { lines, aside }) : { lines, aside };
    const known = await walkable(edition);
    if (!known) missing.add(edition);
    const summary = sumUpLog(merged, known, now);
    if (!summary) continue;
    await db.walks.put({ id: walk, edition, ...merged, file: before?.file ?? file, summary: withSaid(summary, before) });
    walks += 1;
  }
  await sumUpAgain(db, editions, now);
  return {
    walks,
    editions: editions.length,
    neither: opened.flatMap((one) => (one.is === 'neither' ? [one] : [])),
    unreadable: opened.flatMap((one) => (one.is === 'unreadable' ? [one.file] : [])),
    editionless: [...missing],
  };
}

/** Walks that waited for an edition are told of anew once it is there. */
async function sumUpAgain(db: WalksDb, editions: readonly { readonly hash: string; readonly edition: Edition }[], now: string): Promise<void> {
  for (const { hash, edition } of editions) {
    const waiting = await db.walks.where('edition').equals(hash).toArray();
    const walkable = waiting.some(({ summary }) => summary.flags.includes('unknown-edition')) ? walkableEdition(edition) : undefined;
    if (!walkable) continue;
    for (const walk of waiting) {
      const summary = sumUpLog(walk, walkable, now);
      if (summary) await db.walks.put({ ...walk, summary: withSaid(summary, walk) });
    }
  }
}

const withSaid = (summary: KeptWalk['summary'], before: KeptWalk | undefined): KeptWalk['summary'] => ({
  ...summary,
  ...(before?.summary.confirmation && { confirmation: before.summary.confirmation }),
});

/** Each edition is looked up and made ready once. */
function walkables(find: (hash: string) => Promise<Edition | undefined>): (hash: string) => Promise<WalkableEdition | undefined> {
  const known = new Map<string, Promise<WalkableEdition | undefined>>();
  return (hash) => {
    const there = known.get(hash) ?? find(hash).then((edition) => edition && walkableEdition(edition));
    known.set(hash, there);
    return there;
  };
}
