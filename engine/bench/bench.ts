import { z } from 'zod';
import { QUANTITY_KIND_NAMES } from '../quantity/index.ts';
import { nameSchema, nodeSchema, textSchema } from './names.ts';
import { partSchema } from './parts/part-kinds.ts';

/** A fact of the site, as written: `{ quantity: ac-voltage, ask: Line voltage, usual: 120 V, from: 108 V, to: 126 V }`. */
export const benchFactSchema = z.strictObject({
  quantity: z.enum(QUANTITY_KIND_NAMES),
  ask: z.string().min(1).max(200),
  usual: textSchema,
  from: textSchema,
  to: textSchema,
});

export const faultSchema = z.strictObject({
  part: nameSchema,
  becomes: textSchema,
  /** How often it is met, against the others. */
  weight: z.number().positive().max(1e6).default(1),
  /** The weight before confirmed calls were counted into it; absent where none are. */
  prior: z.number().positive().max(1e6).optional(),
  /** In plain words, for people. */
  says: z.string().min(1).max(200).optional(),
});

/** The whole of a bench file. Everything in it is data and text: an edition carries it as it stands. */
export const benchSchema = z.strictObject({
  title: z.string().min(1).max(200),
  about: z.string().max(4000).optional(),
  frequency: textSchema.default('60 Hz'),
  /** Points that a lead can touch. */
  terminals: z.array(nodeSchema).min(1).max(200),
  /** The first state is as the tech finds it. */
  settings: z.record(nameSchema, z.array(nameSchema).min(2).max(20)).default({}),
  facts: z.record(nameSchema, benchFactSchema).default({}),
  parts: z.record(nameSchema, partSchema),
  signs: z.record(nameSchema, textSchema).default({}),
  faults: z.record(nameSchema, faultSchema).default({}),
});

export type Bench = z.infer<typeof benchSchema>;
export type BenchFact = z.infer<typeof benchFactSchema>;
export type Fault = z.infer<typeof faultSchema>;

/** More than any control panel has; keeps a hostile file from taking the machine. */
export const MOST = { parts: 200, nodes: 250, faults: 500, settings: 20, facts: 20, signs: 200 } as const;
