import { z } from 'zod';
import { benchSchema } from '../bench/index.ts';
import { slugSchema, treeSchema } from '../tree/index.ts';

/**
 * One published version of a tree with every tree it leads to, its benches and its figures. Data only; its name is the
 * SHA-256 of its RFC 8785 canonical JSON.
 */
export const editionSchema = z.strictObject({
  format: z.literal('ohmward-edition/1'),
  /** The tree that a walk opens. */
  root: slugSchema,
  trees: z.record(slugSchema, treeSchema),
  benches: z.record(slugSchema, benchSchema),
  /** Figures by path, as data addresses. */
  figures: z.record(z.string(), z.string().regex(/^data:image\/(png|jpeg|svg\+xml|webp);base64,[A-Za-z0-9+/=]+$/)),
});

export type Edition = z.infer<typeof editionSchema>;

/** What a list says of an edition. */
export type EditionHead = { readonly name: string; readonly title: string; readonly complaint: string; readonly steps: number };

export function editionHead({ root: name, trees }: Edition): EditionHead {
  const root = trees[name];
  return { name, title: root?.title ?? name, complaint: root?.complaint ?? '', steps: root?.steps.length ?? 0 };
}
