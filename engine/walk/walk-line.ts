import { z } from 'zod';
import { walkEventSchema } from './walk-event.ts';

export const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/);

/**
 * One line of a walk's log. `hash` is the SHA-256 of the RFC 8785 canonical JSON of the line without it; `before` is the
 * hash of the line before, 64 zeros on the first. So an edit shows wherever it is, and a missing line shows as a gap.
 */
export const walkLineSchema = z.strictObject({
  walk: z
    .string()
    .min(1)
    .max(80)
    .regex(/^\P{Cs}*$/u),
  seq: z.number().int().nonnegative(),
  /** ISO 8601 with offset. */
  time: z.iso.datetime({ offset: true }),
  /** Milliseconds of a clock that never runs back while the app is open. */
  mono: z.number().nonnegative(),
  edition: sha256Schema,
  event: walkEventSchema,
  before: sha256Schema,
  hash: sha256Schema,
});

export type WalkLine = z.infer<typeof walkLineSchema>;
