import { z } from 'zod';
import type { PartKind } from '../part-kind.ts';
import { contactFields, contactKind, guardsSchema } from './contact.ts';

export const switchSchema = z.strictObject({ kind: z.literal('switch'), ...contactFields, safety: guardsSchema.optional() });

export type SwitchSpec = z.infer<typeof switchSchema>;

/**
 * A contact that a hand moves and that stays where it is put: a disconnect, a service switch. What could be live counts on it, unless it is
 * stuck closed; on any other contact it does not.
 */
export const switchPart: PartKind<SwitchSpec> = contactKind('switch', 'a switch');
