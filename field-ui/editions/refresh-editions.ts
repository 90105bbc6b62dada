import { z } from 'zod';
import { failure, type Result, success } from '../../engine/result.ts';
import { type Edition, editionHash, readEdition } from '../../engine/walk/index.ts';
import type { FieldDb, StoredEdition } from '../storage/field-db.ts';
import { type StorageProblem, storageProblem } from '../storage/storage-problem.ts';

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

async function fetchIndex(fetchPath: Fetch): Promise<Result<readonly Entry[], RefreshProblem>> {
  let response: Response;
  try {
    response = await fetchPath('/editions/index.json', { cache: 'no-cache' });
  } catch {
    return failure({ code: 'no-signal' });
  }
  if (!response.ok) return failure({ code: 'service-answered', status: response.status });
  const parsed = indexSchema.safeParse(await response.json().catch(() => undefined));
  return parsed.success ? success(parsed.data) : failure({ code: 'list-not-understood' });
}

/** Fetches one edition and checks that it is the one its hash names, and that it can be walked. */
async function fetchEdition(fetchPath: Fetch, { hash, title }: Entry): Promise<Result<Edition, RefreshProblem>> {
  let input: unknown;
  try {
    const response = await fetchPath(`/editions/${hash}.json`);
    if (!response.ok) return failure({ code: 'edition-not-fetched', title });
    input = await response.json();
  } catch {
    return failure({ code: 'edition-not-fetched', title });
  }
  const edition = readEdition(input);
  if (!edition.ok || editionHash(edition.value) !== hash) return failure({ code: 'not-that-edition', title });
  return success(edition.value);
}

/**
 * Brings the crew's trees onto the device: every edition of the list that is not here yet is fetched, checked and stored, and those
 * that the list has dropped stay for the walks that were walked on them. What was put here by hand stays as it is.
 * For a device that is in no crew: the crew's own list takes the place of this one, and is never replaced by it.
 */
export async function refreshEditions(db: FieldDb, fetchPath: Fetch): Promise<Refreshed> {
  const index = await fetchIndex(fetchPath);
  if (!index.ok) return { trees: 0, fetched: 0, problems: [index.problem] };
  const problems: RefreshProblem[] = [];
  const here: StoredEdition[] = [];
  let fetched = 0;
  for (const [listed, entry] of index.value.entries()) {
    const stored = await db.editions.get(entry.hash).catch(() => undefined);
    if (stored && readEdition(stored.edition).ok && editionHash(stored.edition) === entry.hash) {
      here.push({ ...stored, ...entry, listed });
      continue;
    }
    const edition = await fetchEdition(fetchPath, entry);
    if (!edition.ok) {
      problems.push(edition.problem);
      continue;
    }
    fetched += 1;
    here.push({ ...entry, listed, edition: edition.value });
  }
  try {
    await keep(db, here);
  } catch (error) {
    problems.push({ code: 'not-stored', storage: storageProblem(error) });
  }
  return { trees: here.length, fetched, problems };
}

async function keep(db: FieldDb, here: readonly StoredEdition[]): Promise<void> {
  const hashes = new Set(here.map(({ hash }) => hash));
  await db.transaction('rw', db.editions, db.walks, db.crew, async () => {
    // It may have joined while the list was on its way.
    if (await db.crew.get('membership')) return;
    const walked = new Set((await db.walks.toArray()).map(({ edition }) => edition));
    for (const old of await db.editions.toArray()) {
      if (hashes.has(old.hash) || old.from !== undefined) continue;
      if (walked.has(old.hash)) await db.editions.put({ ...old, listed: -1 });
      else await db.editions.delete(old.hash);
    }
    await db.editions.bulkPut(here);
  });
}
