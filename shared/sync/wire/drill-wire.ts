import { z } from 'zod';
import { drillTaskSchema } from '../../../engine/review/index.ts';

// Drills that a trainer gives and what came of them. Times are ISO 8601 in UTC.

const moment = z.string().max(40);

export const drillRequestSchema = z.strictObject({
  task: drillTaskSchema.omit({ id: true }),
  /** Whom it is given to; left out, to everyone of the crew. */
  people: z.array(z.string().max(80)).max(500).default([]),
});
export type DrillRequest = z.input<typeof drillRequestSchema>;

export const givenDrillSchema = z.object({
  task: drillTaskSchema,
  by: z.string(),
  byName: z.string(),
  at: moment,
  people: z.array(z.string()),
  stopped: moment.optional(),
});
export type GivenDrill = z.infer<typeof givenDrillSchema>;
export const givenDrillsSchema = z.object({ drills: z.array(givenDrillSchema) });

/** A drill that was done, as the phone has it. `run` is engine/review's record of it; the hub stores it as it is. At most 256 KiB as JSON. */
export const drillRunRequestSchema = z.strictObject({ run: z.record(z.string(), z.unknown()) });

/** `run.id` names it; sending the same again changes nothing, another under the same id is refused (409). */
export const drillRunsSchema = z.object({
  runs: z.array(z.object({ drill: z.string(), run: z.record(z.string(), z.unknown()), person: z.string(), personName: z.string(), arrived: moment })),
});
export type DrillRuns = z.infer<typeof drillRunsSchema>;
