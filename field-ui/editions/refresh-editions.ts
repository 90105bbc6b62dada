import { z } from 'zod';
import { failure, type Result, success } from '../../engine/result.ts';
import { type Edition, editionHash, readEdition } from '../../engine/walk/index.ts';
import { eitherSignal } from '../../shared/sync/either-signal.ts';
import type { FieldDb, StoredEdition } from '../storage/field-db.ts';
import { type StorageProblem, storageProblem } from '../storage/storage-problem.ts';
import { addUnlisted, dropUnlisted } from '../storage/unlisted-editions.ts';

const entrySchema = z.object({
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  name: z.string().max(200),
  title: z.string().max(300),
  complaint: z.string().max(2000),
  steps: z.number().int().nonnegative(),
});
const indexSchema = z.array(entrySchema).max(10_000);
type Entry = z.infer<typeof entrySchema>;

export type RefreshProblem =
  | { readonly code: 'no-signal' }
  | { readonly code: 'service-answered'; readonly status: number }
  | { readonly code: 'list-not-understood' }
  | { readonly code: 'not-that-edition'; readonly title: string }
  | { readonly code: 'edition-not-fetched'; readonly title: string }
  | { readonly code: 'not-stored'; readonly storage: StorageProblem };

/** What a look at the crew's list gave. Trees that are here already can be walked whatever it is. */
export type Refreshed = { readonly trees: number; readonly fetched: number; readonly problems: readonly RefreshProblem[] };

type Fetch = (path: string, init?: RequestInit) => Promise<Response>;

/** How long the list, and one edition, may take to come, ms: as long as the hub is given. */
const LIST_MS = 30_000;
const EDITION_MS = 120_000;

/** A question that ends with its look, or when it takes too long; the body that comes after the answer as well. */
const asking =
  (fetchPath: Fetch, look: AbortSignal | undefined) =>
  async <T>(path: string, ms: number, read: (response: Response) => Promise<T>, init: RequestInit = {}): Promise<T | undefined> => {
    const limit = AbortSignal.timeout(ms);
    const signal = look ? eitherSignal(look, limit) : limit;
    const answer = await fetchPath(path, { ...init, signal })
      .then(read)
      .catch(() => undefined);
    return signal.aborted ? undefined : answer;
  };
type Ask = ReturnType<typeof asking>;

async function fetchIndex(ask: Ask): Promise<Result<readonly Entry[], RefreshProblem>> {
  const read = async (response: Response): Promise<Result<readonly Entry[], RefreshProblem>> => {
    if (!response.ok) return failure({ code: 'service-answered', status: response.status });
    const parsed = indexSchema.safeParse(await response.json().catch(() => undefined));
    return parsed.success ? success(parsed.data) : failure({ code: 'list-not-understood' });
  };
  return (await ask('/editions/index.json', LIST_MS, read, { cache: 'no-cache' })) ?? failure({ code: 'no-signal' });
}

/** Fetches one edition and checks that it is the one its hash names, and that it can be walked. */
async function fetchEdition(ask: Ask, { hash, title }: Entry): Promise<Result<Edition, RefreshProblem>> {
  const input = await ask(`/editions/${hash}.json`, EDITION_MS, async (response): Promise<unknown> => (response.ok ? response.json() : undefined));
  if (input === undefined) return failure({ code: 'edition-not-fetched', title });
  const edition = readEdition(input);
  if (!edition.ok || editionHash(edition.value) !== hash) return failure({ code: 'not-that-edition', title });
  return success(edition.value);
}

/**
 * Brings the crew's trees onto the device: every edition of the list that is not here yet is fetched, checked and stored, and those
 * that the list has dropped stay for the walks and drills on them. What was put here by hand stays as it is.
 * For a device that is in no crew: the crew's own list takes the place of this one, and is never replaced by it.
 * A look that `signal` has ended changes nothing of the list, however far it came.
 */
export async function refreshEditions(db: FieldDb, fetchPath: Fetch, signal?: AbortSignal): Promise<Refreshed> {
  const ask = asking(fetchPath, signal);
  const index = await fetchIndex(ask);
  if (!index.ok) return { trees: 0, fetched: 0, problems: [index.problem] };
  const problems: RefreshProblem[] = [];
  const here: StoredEdition[] = [];
  const missing = new Set<string>();
  let fetched = 0;
  for (const [listed, entry] of index.value.entries()) {
    if (signal?.aborted) break;
    const stored = await db.editions.get(entry.hash).catch(() => undefined);
    if (stored && readEdition(stored.edition).ok && editionHash(stored.edition) === entry.hash) {
      here.push({ ...stored, ...entry, listed });
      continue;
    }
    const edition = await fetchEdition(ask, entry);
    if (!edition.ok) {
      problems.push(edition.problem);
      missing.add(entry.name);
      continue;
    }
    fetched += 1;
    here.push({ ...entry, listed, edition: edition.value });
    // Kept at once, so that a look that is cut short need not fetch it again. Where there is no room the whole list says so below.
    await keepFetched(db, { ...entry, edition: edition.value }, signal).catch(() => undefined);
  }
  try {
    await keep(db, here, missing, signal);
  } catch (error) {
    problems.push({ code: 'not-stored', storage: storageProblem(error) });
  }
  return { trees: here.length, fetched, problems };
}

async function keepFetched(db: FieldDb, edition: Omit<StoredEdition, 'listed'>, signal: AbortSignal | undefined): Promise<void> {
  await db.transaction('rw', db.editions, db.crew, async () => {
    if (!(await isOver(db, signal))) await addUnlisted(db, edition);
  });
}

/** A later look may have ended this one, or the device may have joined, while something was on its way. */
const isOver = async (db: FieldDb, signal: AbortSignal | undefined): Promise<boolean> =>
  signal?.aborted === true || (await db.crew.get('membership')) !== undefined;

/** `missing`: names of trees whose listed edition could not be had. */
async function keep(db: FieldDb, here: readonly StoredEdition[], missing: ReadonlySet<string>, signal: AbortSignal | undefined): Promise<void> {
  const hashes = new Set(here.map(({ hash }) => hash));
  await db.transaction('rw', db.editions, db.walks, db.drillTasks, db.drillRuns, db.crew, async () => {
    if (await isOver(db, signal)) return;
    // An older edition is better than none until the newer one is here.
    await dropUnlisted(
      db,
      (hash) => hashes.has(hash),
      ({ name }) => missing.has(name),
    );
    await db.editions.bulkPut(here);
  });
}
