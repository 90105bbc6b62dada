import { z } from 'zod';
import { CLOSED, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const resistorSchema = z.strictObject({
  kind: z.literal('resistor'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  ohms: textSchema,
  lead: leadsSchema.optional(),
});

export type ResistorSpec = z.infer<typeof resistorSchema>;

/** I = V/R. Ohms. Source: Ohm's law. */
export const resistor: PartKind<ResistorSpec> = {
  kind: 'resistor',
  about: 'a resistor',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => valueIn('ohms', spec.ohms, RULES.ohms),
  conditions: () => [],
  states: () => [],
  modes: ['open', 'shorted'],
  value: () => RULES.ohms,
  stamp(_spec, part, circuit) {
    const { fault } = part;
    const [a = -1, b = -1] = part.ends;
    if (fault.open || fault.absent) return;
    circuit.branch(part, { a, b, on: fault.shorted ? CLOSED : seriesAdmittance(fault.value ?? part.values.ohms ?? 0) });
  },
};
