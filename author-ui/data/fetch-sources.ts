import { z } from 'zod';
import { failure, type Result, success } from '../../engine/result.ts';

const fileSchema = z.object({ name: z.string(), path: z.string() });
const listSchema = z.object({ trees: z.array(fileSchema), benches: z.array(fileSchema), figures: z.array(fileSchema) });
const entrySchema = z.object({ hash: z.string(), name: z.string(), title: z.string(), complaint: z.string(), steps: z.number() });

/** One published edition as the service lists it. */
export type EditionEntry = z.infer<typeof entrySchema>;

/** The texts of the trees folder by name, as they stand now, and what is published of them. */
export type Sources = {
  readonly trees: Readonly<Record<string, string>>;
  readonly benches: Readonly<Record<string, string>>;
  /** Addresses of the pictures by their path, such as `figures/valve.png`. */
  readonly figures: Readonly<Record<string, string>>;
  readonly editions: readonly EditionEntry[];
};

export type FetchProblem =
  | { readonly code: 'no-answer'; readonly path: string }
  | { readonly code: 'refused'; readonly path: string; readonly status: number }
  | { readonly code: 'not-understood'; readonly path: string };

type Fetch = (path: string) => Promise<Response>;

async function get(fetchPath: Fetch, path: string): Promise<Result<string, FetchProblem>> {
  try {
    const response = await fetchPath(path);
    return response.ok ? success(await response.text()) : failure({ code: 'refused', path, status: response.status });
  } catch {
    return failure({ code: 'no-answer', path });
  }
}

async function getJson<T>(fetchPath: Fetch, path: string, schema: z.ZodType<T>): Promise<Result<T, FetchProblem>> {
  const text = await get(fetchPath, path);
  if (!text.ok) return text;
  try {
    const parsed = schema.safeParse(JSON.parse(text.value));
    return parsed.success ? success(parsed.data) : failure({ code: 'not-understood', path });
  } catch {
    return failure({ code: 'not-understood', path });
  }
}

async function getTexts(
  fetchPath: Fetch,
  files: readonly z.infer<typeof fileSchema>[],
): Promise<Result<Readonly<Record<string, string>>, FetchProblem>> {
  const texts: Record<string, string> = {};
  const answers = await Promise.all(files.map(async ({ name, path }) => ({ name, text: await get(fetchPath, `/trees/${path}`) })));
  for (const { name, text } of answers) {
    if (!text.ok) return text;
    texts[name] = text.value;
  }
  return success(texts);
}

/** The pictures under addresses that a page may show. One that cannot be fetched is left out: its words stand for it. */
async function getFigures(fetchPath: Fetch, addressOf: (picture: Blob) => string | Promise<string>, files: readonly z.infer<typeof fileSchema>[]) {
  const found = await Promise.all(
    files.map(async ({ path }) => {
      const response = await fetchPath(`/trees/${path}`).catch(() => undefined);
      return response?.ok ? [[path, await addressOf(await response.blob())] as const] : [];
    }),
  );
  return Object.fromEntries(found.flat());
}

/** What is published, as the service lists it. */
export const fetchEditions = (fetchPath: Fetch): Promise<Result<readonly EditionEntry[], FetchProblem>> =>
  getJson(fetchPath, '/editions/index.json', z.array(entrySchema));

/** Fetches everything the shelf shows; the first text that fails is the answer. `addressOf` makes a picture's address. */
export async function fetchSources(fetchPath: Fetch, addressOf: (picture: Blob) => string | Promise<string>): Promise<Result<Sources, FetchProblem>> {
  const [list, editions] = await Promise.all([getJson(fetchPath, '/trees/', listSchema), fetchEditions(fetchPath)]);
  if (!list.ok) return list;
  if (!editions.ok) return editions;
  const [trees, benches] = await Promise.all([getTexts(fetchPath, list.value.trees), getTexts(fetchPath, list.value.benches)]);
  if (!trees.ok) return trees;
  if (!benches.ok) return benches;
  const figures = await getFigures(fetchPath, addressOf, list.value.figures);
  return success({ trees: trees.value, benches: benches.value, figures, editions: editions.value });
}
