import { z } from 'zod';
import { hashSchema } from './hash-schema.ts';

/** One publication of a tree: an edition, with who published it, why, and what it follows. */
export const publicationEntrySchema = z.object({
  hash: hashSchema,
  name: z.string(),
  title: z.string(),
  complaint: z.string(),
  steps: z.number().int().nonnegative(),
  /** 1 for the first publication of a tree, and one more for each that follows. */
  number: z.number().int().positive(),
  basedOn: hashSchema.optional(),
  by: z.string(),
  byName: z.string(),
  at: z.string(),
  why: z.string(),
  changes: z.array(z.string()),
  accepted: z.record(z.string(), z.string()),
  withdrawn: z.object({ at: z.string(), by: z.string(), why: z.string() }).optional(),
});
export type PublicationEntry = z.infer<typeof publicationEntrySchema>;

/**
 * One edition to walk now. `shipped`: it comes with this copy of Ohmward and nobody of the crew has published the tree. Where `from` is
 * `crew`, the publication's number, by whom and when.
 */
export const listedEditionSchema = z.object({
  hash: hashSchema,
  name: z.string().max(200),
  title: z.string().max(300),
  complaint: z.string().max(2000),
  steps: z.number().int().nonnegative(),
  from: z.enum(['crew', 'shipped']),
  number: z.number().int().optional(),
  byName: z.string().optional(),
  at: z.string().optional(),
  why: z.string().optional(),
});
export type ListedEdition = z.infer<typeof listedEditionSchema>;

export const withdrawnEditionSchema = z.object({ hash: hashSchema, name: z.string(), at: z.string(), byName: z.string(), why: z.string() });
export type WithdrawnEdition = z.infer<typeof withdrawnEditionSchema>;

/** `GET /crew/editions`: the current edition of every tree, and all that were taken back. */
export const editionListSchema = z.object({
  entries: z.array(listedEditionSchema).max(10_000),
  withdrawn: z.array(withdrawnEditionSchema).max(100_000),
});
export type EditionList = z.infer<typeof editionListSchema>;

export const historySchema = z.object({ publications: z.array(publicationEntrySchema) });

export const publishRequestSchema = z.strictObject({
  hash: hashSchema,
  edition: z.unknown(),
  /** The crew's edition that this one was made from; left out only for a tree's first publication. */
  basedOn: hashSchema.optional(),
  why: z.string().trim().min(1).max(4000),
  changes: z.array(z.string().max(2000)).max(5000).default([]),
  /** Why each kind of warning was let stand, by its code. */
  accepted: z.record(z.string().max(60), z.string().max(2000)).default({}),
});
export type PublishRequest = z.input<typeof publishRequestSchema>;

/** `stood`: this very edition was current already, and nothing was changed. */
export const publishedSchema = z.object({ publication: publicationEntrySchema, stood: z.boolean() });
export type Published = z.infer<typeof publishedSchema>;

export const withdrawRequestSchema = z.strictObject({ why: z.string().trim().min(1).max(2000) });
