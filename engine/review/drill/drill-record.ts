import { z } from 'zod';
import { drillMoveSchema } from './drill-move.ts';
import { drillTaskSchema } from './drill-task.ts';

const momentSchema = { time: z.string().max(40), mono: z.number() };

/** One move with its time, what the tech saw of it, and whether it was refused as unsafe. */
export const drillLineSchema = z.strictObject({
  ...momentSchema,
  move: drillMoveSchema,
  /** What the meter's display, or the sign, showed. */
  shown: z.string().max(60).optional(),
  /** The code of the concern for which it was not done. */
  refused: z.string().max(40).optional(),
});
export type DrillLine = z.infer<typeof drillLineSchema>;

/** A drill as it was done: what it takes to do it over, move by move. Past `MOST_LINES` no move is taken. */
export const MOST_LINES = 600;

export const drillRecordSchema = z.strictObject({
  format: z.literal('ohmward-drill-run/1'),
  id: z.string().min(1).max(80),
  task: drillTaskSchema,
  by: z.string().max(80).optional(),
  begun: z.strictObject(momentSchema),
  lines: z.array(drillLineSchema).max(MOST_LINES),
});
export type DrillRecord = z.infer<typeof drillRecordSchema>;
