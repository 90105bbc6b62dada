import { z } from 'zod';
import { hashSchema } from './hash-schema.ts';

/** Lines of one upload at most; its body may have MOST_UPLOAD_BYTES. */
export const MOST_LINES = 500;
export const MOST_UPLOAD_BYTES = 1024 * 1024;
export const MOST_STANDINGS = 200;
export const MOST_PHOTO_BYTES = 8 * 1024 * 1024;
export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const;

/** As on a log line, and without what is no text: control characters, and halves of a character. */
const walkId = z
  .string()
  .min(1)
  .max(80)
  .regex(/^[^\p{Cc}\p{Cs}]+$/u);

/** How far the device has a walk: number of lines, and the hash of the last. A tail that never arrives shows by it. */
const tailSchema = z.strictObject({ walk: walkId, length: z.number().int().min(0).max(1_000_000), head: hashSchema });
export type Tail = z.infer<typeof tailSchema>;

export const uploadRequestSchema = z.strictObject({
  /** Log lines of any walks in any order. Each is judged by itself, so that one bad line keeps none of the others out. */
  lines: z.array(z.unknown()).max(MOST_LINES),
  tails: z.array(tailSchema).max(MOST_LINES).default([]),
});
export type UploadRequest = { readonly lines: readonly unknown[]; readonly tails: readonly Tail[] };

/** Why a line can never be taken as it is. */
export const lineFaultSchema = z.enum(['not-a-line', 'line-changed', 'chain-broken', 'too-far', 'too-many-forks']);
export type LineFault = z.infer<typeof lineFaultSchema>;

/**
 * What became of one line of an upload. `stored` and `already`: the hub has it on disk. `forked`: the hub has it on disk too, but another
 * line stands at its place, or it does not follow the line before it; the walk is marked. `refused`: not kept.
 */
export const lineOutcomeSchema = z.discriminatedUnion('outcome', [
  z.object({ outcome: z.literal('stored') }),
  z.object({ outcome: z.literal('already') }),
  z.object({ outcome: z.literal('forked') }),
  z.object({ outcome: z.literal('refused'), fault: lineFaultSchema, detail: z.string() }),
]);
export type LineOutcome = z.infer<typeof lineOutcomeSchema>;

/** What is odd about a walk as the hub has it. */
export const walkFlagSchema = z.enum([
  /** The edition is not on the hub, so the walk cannot be replayed there. */
  'unknown-edition',
  /** Two lines for one place, or a line that does not follow the one before. Both are kept. */
  'forked',
  /** Lines are missing before lines that are there. */
  'gap',
  /** The device has told of more lines than have arrived. */
  'cut-off',
  /** The device told of fewer lines than it once had. */
  'shrunk',
  /** Lines came from devices of more than one person. */
  'several-hands',
  /** The log does not replay on its edition. */
  'does-not-replay',
]);
export type WalkFlag = z.infer<typeof walkFlagSchema>;

/** A walk as the hub has it: lines from 0 without a gap, the hash of the last, and all lines it has of the walk. */
export const standingSchema = z.object({
  walk: walkId,
  length: z.number().int().nonnegative(),
  head: hashSchema,
  lines: z.number().int().nonnegative(),
  flags: z.array(walkFlagSchema),
});
export type Standing = z.infer<typeof standingSchema>;

/** The answer of an upload whatever its status (200, 409 with forks, 422 with refusals): an outcome for every line, in the order sent. */
export const uploadAnswerSchema = z.object({ outcomes: z.array(lineOutcomeSchema), standings: z.array(standingSchema) });
export type UploadAnswer = z.infer<typeof uploadAnswerSchema>;

export const standingRequestSchema = z.strictObject({ walks: z.array(walkId).max(MOST_STANDINGS) });
/** Walks that the hub has nothing of are left out. */
export const standingsSchema = z.object({ standings: z.array(standingSchema) });

/** A walk in the crew's list. What is not known yet (its first line is missing, or it does not replay) is left out. */
export const walkSummarySchema = z.object({
  walk: z.string(),
  edition: hashSchema,
  tree: z.string().optional(),
  title: z.string().optional(),
  person: z.string(),
  personName: z.string(),
  /** The name typed on the phone when the call was opened. */
  by: z.string().optional(),
  site: z.string().optional(),
  drill: z.boolean(),
  opened: z.string().optional(),
  last: z.string(),
  arrived: z.string(),
  length: z.number().int(),
  lines: z.number().int(),
  /** Lines that the device has told of. */
  told: z.number().int(),
  closed: z.boolean(),
  phase: z.string().optional(),
  finding: z.string().optional(),
  outcome: z.string().optional(),
  /** From opening to closing, pauses taken out. */
  minutes: z.number().optional(),
  /** What was learnt of the finding afterwards; not there while nothing is known. */
  confirmation: z.object({ held: z.boolean().optional(), bench: z.string().optional(), fault: z.string().optional() }).optional(),
  flags: z.array(walkFlagSchema),
});
export type WalkSummary = z.infer<typeof walkSummarySchema>;

export const walkQuerySchema = z.strictObject({
  tree: z.string().max(200).optional(),
  edition: hashSchema.optional(),
  person: z.string().max(80).optional(),
  outcome: z.string().max(40).optional(),
  flagged: z.enum(['yes', 'no']).optional(),
  drill: z.enum(['yes', 'no']).optional(),
  closed: z.enum(['yes', 'no']).optional(),
  /** The finding held, did not, or is still open: closed with a finding, and nothing was learnt of it since. */
  confirmed: z.enum(['yes', 'no', 'open']).optional(),
  /** The finding's tree and step, as `tree/step`. */
  finding: z
    .string()
    .max(200)
    .regex(/^[^/]+\/[^/]+$/)
    .optional(),
  /** Opened at or after, and before: ISO 8601 dates or times. */
  from: z.iso.datetime({ offset: true }).or(z.iso.date()).optional(),
  to: z.iso.datetime({ offset: true }).or(z.iso.date()).optional(),
  /** `next` of the page before. */
  after: z.string().max(200).optional(),
  most: z.coerce.number().int().min(1).max(200).default(50),
});
export type WalkQuery = z.input<typeof walkQuerySchema>;

/** Newest call first. `next` is there while there is more. */
export const walkPageSchema = z.object({ walks: z.array(walkSummarySchema), next: z.string().optional() });
export type WalkPage = z.infer<typeof walkPageSchema>;

/** The lines of a walk's main run in order, from `from`; lines off it (forks, after a gap) in `aside`, on the first page only. */
export const walkLinesSchema = z.object({
  summary: walkSummarySchema,
  lines: z.array(z.unknown()),
  aside: z.array(z.unknown()),
  next: z.number().int().optional(),
});
export type WalkLines = z.infer<typeof walkLinesSchema>;

/** Walks that have changed since a cursor, each once, in the order of their last change. Ask again with `cursor`. */
export const walkChangesSchema = z.object({ walks: z.array(walkSummarySchema), cursor: z.number().int(), more: z.boolean() });
export type WalkChanges = z.infer<typeof walkChangesSchema>;
