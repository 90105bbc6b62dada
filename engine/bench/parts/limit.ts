import { z } from 'zod';
import type { PartKind } from '../part-kind.ts';
import { contactFields, contactKind, guardsSchema } from './contact.ts';

export const limitSchema = z.strictObject({ kind: z.literal('limit'), ...contactFields, safety: guardsSchema });

export type LimitSpec = z.infer<typeof limitSchema>;

/** A safety contact: high limit, pressure switch, roll-out, float. `safety` names what it guards. */
export const limit: PartKind<LimitSpec> = contactKind('limit', 'a limit');
