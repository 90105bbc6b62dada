import { z } from 'zod';
import { failure, type Result, success } from '../../engine/result.ts';
import { type Edition, editionHash, readEdition } from '../../engine/walk/index.ts';

const hashSchema = z.string().regex(/^[0-9a-f]{64}$/);

/** An edition with who published it, why, and what changed since the one before; the edition itself is named by its hash alone. */
const publicationSchema = z.strictObject({
  format: z.literal('ohmward-publication/1'),
  hash: hashSchema,
  by: z.string().min(1).max(200),
  why: z.string().min(1).max(4000),
  /** When, ISO 8601. */
  at: z.string().max(40),
  /** The edition that the changes are told from. */
  since: hashSchema.optional(),
  changes: z.array(z.string().max(2000)).max(5000),
  /** Why each kind of warning was let stand, by its code. */
  accepted: z.record(z.string().max(60), z.string().max(2000)),
  edition: z.unknown(),
});

export type Publication = Omit<z.infer<typeof publicationSchema>, 'edition'> & { readonly edition: Edition };

export type PublicationProblem =
  | { readonly code: 'not-json' }
  | { readonly code: 'not-an-edition'; readonly detail: string }
  /** What the file holds is not what its hash names: it was changed after it was published. */
  | { readonly code: 'changed-since' };

/** An edition file's text: a publication, or an edition alone. Its hash is worked out anew. */
export type EditionFile = { readonly hash: string; readonly edition: Edition; readonly publication?: Publication };

export function readEditionFile(text: string): Result<EditionFile, PublicationProblem> {
  let input: unknown;
  try {
    input = JSON.parse(text);
  } catch {
    return failure({ code: 'not-json' });
  }
  const parsed = publicationSchema.safeParse(input);
  const read = readEdition(parsed.success ? parsed.data.edition : input);
  if (!read.ok) return failure({ code: 'not-an-edition', detail: read.problem.code });
  const hash = editionHash(read.value);
  if (!parsed.success) return success({ hash, edition: read.value });
  if (parsed.data.hash !== hash) return failure({ code: 'changed-since' });
  return success({ hash, edition: read.value, publication: { ...parsed.data, edition: read.value } });
}

export function publicationProblemWords(problem: PublicationProblem): string {
  switch (problem.code) {
    case 'not-json':
      return 'The file is not an edition: it is no JSON. Choose one that ends in .edition.json.';
    case 'not-an-edition':
      return `The file is not an edition that can be walked (${problem.detail}). Publish the tree again on the desk.`;
    case 'changed-since':
      return 'The file was changed after it was published: what it holds is not what its hash names. Get it again from who published it.';
  }
}

/** `NAME.HASH12.edition.json`. */
export const editionFileName = (name: string, hash: string): string => `${name}.${hash.slice(0, 12)}.edition.json`;
