import { z } from 'zod';
import { slugSchema } from '../tree/index.ts';

// Half of a character outside the basic plane is no text: it has no UTF-8, and so no hash.
const whole = z.string().regex(/^\P{Cs}*$/u, 'Half a character.');
const text = (max: number) => whole.max(max);
const typed = whole.max(60);

/** How a reading was judged when it was taken; kept in the log so that a review sees what the tech saw. */
export const judgedSchema = z.strictObject({
  /** SI, or 'open' for OL. */
  si: z.union([z.number(), z.literal('open')]),
  unit: whole,
  /** SI size of the last digit typed. */
  resolution: z.number(),
  /** Half the interval that the true value lies in, SI. */
  halfWidth: z.number(),
  /** Every band with its numbers for this house, SI; null is unbounded. */
  bands: z.array(z.strictObject({ on: whole, low: z.number().nullable(), high: z.number().nullable() })),
  /** The band it fell in. */
  on: whole,
  /** Distance to the nearest edge, SI; null where the band has none. */
  margin: z.number().nullable(),
  /** The other bands that the accuracy interval reaches into: too close to call when there is one. */
  reaches: z.array(whole),
});

/** What a tech, or the clock on the wall, can do to a walk. What is typed is kept as typed. */
export const walkEventSchema = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('opened'), by: text(80).optional(), site: text(200).optional(), drill: z.boolean().optional() }),
  /** The tech tells a fact of the site, from the list of facts or on an Ask step. */
  z.strictObject({ type: z.literal('told'), fact: slugSchema, typed }),
  /** One caution, by its place in `cautions` of the step, or of the opening when the walk is still there. */
  z.strictObject({ type: z.literal('caution-read'), caution: z.number().int().nonnegative() }),
  z.strictObject({ type: z.literal('read'), typed, judged: judgedSchema.optional() }),
  z.strictObject({ type: z.literal('looked'), saw: text(120) }),
  /** The step's own act, or (with `does`) one change that sets up the circuit for the step. */
  z.strictObject({ type: z.literal('did'), does: text(120).optional() }),
  z.strictObject({ type: z.literal('could-not'), why: text(500).optional() }),
  /** From a verdict shown to the next step. `tooClose`: the tech went on although the reading was too close to call. */
  z.strictObject({ type: z.literal('went-on'), tooClose: z.boolean().optional() }),
  /** Back to an earlier step, by its place on the path. What was changed on the circuit stays changed. */
  z.strictObject({ type: z.literal('stepped-back'), to: z.number().int().nonnegative() }),
  z.strictObject({ type: z.literal('jumped'), tree: slugSchema, step: slugSchema, why: text(200).optional() }),
  z.strictObject({ type: z.literal('noted'), text: text(2000) }),
  z.strictObject({ type: z.literal('photographed'), photo: text(120), ask: text(200).optional() }),
  z.strictObject({ type: z.literal('paused') }),
  z.strictObject({ type: z.literal('resumed') }),
  /** The finding is accepted; the closing ritual begins. */
  z.strictObject({ type: z.literal('found') }),
  z.strictObject({ type: z.literal('repaired'), done: z.boolean(), note: text(500).optional() }),
  /** One thing put back, by its key on the put-back list. */
  z.strictObject({ type: z.literal('put-back'), item: text(120) }),
  /** The complaint tried again: what was seen, or read, at the recheck step. */
  z.strictObject({ type: z.literal('rechecked'), saw: text(120).optional(), typed: typed.optional(), judged: judgedSchema.optional() }),
  z.strictObject({ type: z.literal('closed') }),
]);

export type WalkEvent = z.infer<typeof walkEventSchema>;
export type WalkEventType = WalkEvent['type'];
export type Judged = z.infer<typeof judgedSchema>;
