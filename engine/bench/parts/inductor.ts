import { z } from 'zod';
import { CLOSED, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const inductorSchema = z.strictObject({
  kind: z.literal('inductor'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  inductance: textSchema,
  /** Of its winding. */
  resistance: textSchema.optional(),
  lead: leadsSchema.optional(),
});

export type InductorSpec = z.infer<typeof inductorSchema>;

// To DC an inductor without resistance is a short; a meter's leads have more than this.
const LEAST_DC_OHMS = 1e-3;

/** Z = R + jωL; DC sees R. Henry, ohms. Source: inductive reactance, 2πfL. */
export const inductor: PartKind<InductorSpec> = {
  kind: 'inductor',
  about: 'an inductor',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [...valueIn('inductance', spec.inductance, RULES.inductance), ...valueIn('resistance', spec.resistance, RULES.ohms)],
  conditions: () => [],
  states: () => [],
  modes: ['open', 'shorted'],
  value: () => RULES.inductance,
  stamp(_spec, part, circuit) {
    const { fault, values } = part;
    const [a = -1, b = -1] = part.ends;
    if (fault.open || fault.absent) return;
    const ohms = values.resistance ?? 0;
    const on = seriesAdmittance(ohms, circuit.omega * (fault.value ?? values.inductance ?? 0));
    circuit.branch(part, { a, b, on: fault.shorted ? CLOSED : { ...on, dc: 1 / Math.max(ohms, LEAST_DC_OHMS) } });
  },
};
