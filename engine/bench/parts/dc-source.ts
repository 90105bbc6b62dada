import { z } from 'zod';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { conditionIn, endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';
import { supply } from './source.ts';

export const dcSourceSchema = z.strictObject({
  kind: z.literal('dc-source'),
  label: z.string().max(120).optional(),
  /** Positive, negative. */
  between: pairSchema,
  volts: textSchema,
  ohms: textSchema.optional(),
  when: textSchema.optional(),
  lead: leadsSchema.optional(),
});

export type DcSourceSpec = z.infer<typeof dcSourceSchema>;

/** A battery or a board's DC supply: V behind R. AC sees R alone. Source: Thévenin and Norton equivalents. */
export const dcSource: PartKind<DcSourceSpec> = {
  kind: 'dc-source',
  about: 'a DC supply',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [...valueIn('volts', spec.volts, RULES.volts), ...valueIn('ohms', spec.ohms, RULES.ohms)],
  conditions: (spec) => conditionIn('when', spec.when),
  states: () => ['dead', 'live'],
  modes: ['open', 'swapped'],
  value: () => RULES.volts,
  stamp(spec, part, circuit) {
    const volts = part.fault.value ?? part.values.volts ?? 0;
    supply(part, circuit, spec.when, volts, { re: 0, im: 0, dc: volts });
  },
};
