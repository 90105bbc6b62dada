import { z } from 'zod';
import { CLOSED } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const capacitorSchema = z.strictObject({
  kind: z.literal('capacitor'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  capacitance: textSchema,
  lead: leadsSchema.optional(),
});

export type CapacitorSpec = z.infer<typeof capacitorSchema>;

/** Y = jωC; open to DC once charged. Farads. Source: capacitive reactance, 1/(2πfC). */
export const capacitor: PartKind<CapacitorSpec> = {
  kind: 'capacitor',
  about: 'a capacitor',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => valueIn('capacitance', spec.capacitance, RULES.capacitance),
  conditions: () => [],
  states: () => [],
  modes: ['open', 'shorted'],
  value: () => RULES.capacitance,
  stamp(_spec, part, circuit) {
    const { fault } = part;
    const [a = -1, b = -1] = part.ends;
    if (fault.open || fault.absent) return;
    const farads = fault.value ?? part.values.capacitance ?? 0;
    circuit.branch(part, { a, b, on: fault.shorted ? CLOSED : { re: 0, im: circuit.omega * farads, dc: 0 } });
  },
};
