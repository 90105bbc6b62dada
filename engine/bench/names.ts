import { z } from 'zod';

/** Names in a bench: a part, a setting and its states, a fact, a sign, a fault. */
export const nameSchema = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(60);

/** The node that is bonded to earth; every bench has it. */
export const GROUND = 'ground';

const nodeText = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9/+_.-]*$/)
  .max(40);

/** Terminals and other nodes, and leads, as they are printed on equipment: R, C, K1, W/W1, 24V+, 5. */
export const nodeSchema = z.union([nodeText, z.number().int().nonnegative().transform(String)]);

/** A formula, condition or other text. A bare number is read as text, so that a forgotten unit is named as such. */
export const textSchema = z.union([z.string().min(1).max(500), z.number().transform(String)]);

export const pairSchema = z.tuple([nodeSchema, nodeSchema]);

/** `coil-hot on V1`: a lead that can be lifted, and the terminal it is landed on. */
export const leadSchema = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9/+_.-]* on [A-Za-z0-9][A-Za-z0-9/+_.-]*$/)
  .max(90);

/** A lead, or a list of them. */
export const leadsSchema = z.union([leadSchema, z.array(leadSchema).min(1)]);

export type Lead = { readonly name: string; readonly on: string };

/** Reads a checked lead text. */
export function leadOf(text: string): Lead {
  const at = text.indexOf(' on ');
  return { name: text.slice(0, at), on: text.slice(at + 4) };
}
