import { z } from 'zod';
import { nameSchema } from '../names.ts';
import type { PartKind } from '../part-kind.ts';

export const stateSchema = z.strictObject({
  kind: z.literal('state'),
  label: z.string().max(120).optional(),
  /** The state that it is in when nothing is wrong. */
  is: nameSchema,
  /** Its other states; those that faults name need not be listed. */
  or: z.array(nameSchema).optional(),
});

export type StatePart = z.infer<typeof stateSchema>;

/** A part that carries no current: a cock, an orifice, a filter. */
export const statePart: PartKind<StatePart> = {
  kind: 'state',
  about: 'a mechanical part',
  ends: () => [],
  values: () => [],
  conditions: () => [],
  states: (spec) => [spec.is, ...(spec.or ?? []).filter((name) => name !== spec.is)],
  modes: [],
  value: () => undefined,
  // Its state is set where faults are gathered, which knows the states that faults add.
  stamp: () => {},
};
