import { z } from 'zod';
import { slugSchema } from '../../tree/index.ts';

/** A drill as a trainer sets it: an edition's bench with a fault hidden in it. */
export const drillTaskSchema = z.strictObject({
  id: z.string().min(1).max(80),
  /** Hash of the edition whose tree and benches it uses. */
  edition: z.string().regex(/^[0-9a-f]{64}$/),
  tree: slugSchema,
  bench: slugSchema,
  /** Left out: the circuit is sound, and 'nothing wrong' is the answer. */
  fault: slugSchema.optional(),
  /** Facts of this house as typed, by name; others are usual. */
  facts: z.record(slugSchema, z.string().max(60)).default({}),
  /** `tree`: along the tree's steps. `free`: the tech chooses every move. */
  order: z.enum(['tree', 'free']),
  /** What the tech is told beside the complaint. */
  note: z.string().max(500).optional(),
});
export type DrillTask = z.infer<typeof drillTaskSchema>;
