import { z } from 'zod';
import { type CircuitView, CLOSED, CLOSED_OHMS, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const fuseSchema = z.strictObject({
  kind: z.literal('fuse'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  /** Amperes, rms. */
  rating: textSchema,
  ohms: textSchema.optional(),
  lead: leadsSchema.optional(),
});

export type FuseSpec = z.infer<typeof fuseSchema>;

/**
 * Good, R = 0.02 Ω; blown, no part at all. It blows, for good, when contacts and coils are at rest and its current (rms of AC and DC)
 * is above its rating: inrush that passes does not blow it, a coil that cannot pull in does.
 */
export const fuse: PartKind<FuseSpec> = {
  kind: 'fuse',
  about: 'a fuse',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [...valueIn('rating', spec.rating, { ...RULES.amps, least: 1e-3 }), ...valueIn('ohms', spec.ohms, RULES.ohms)],
  conditions: () => [],
  states: () => ['blown', 'good'],
  modes: ['open', 'blown', 'shorted'],
  value: () => RULES.ohms,
  stamp(_spec, part, circuit) {
    const { fault, values } = part;
    const [a = -1, b = -1] = part.ends;
    const rating = values.rating ?? 0;
    const blown = fault.open || fault.absent;
    const stress = (view: CircuitView): number => Math.hypot(view.amps(part.index), view.dcAmps(part.index)) / rating;
    const lasts = blown || fault.shorted;
    circuit.state(part, {
      rank: 'fuse',
      start: Number(!blown),
      ...(!lasts && { stress, next: (view: CircuitView) => Number(view.state(part.index) === 1 && stress(view) <= 1) }),
    });
    circuit.branch(part, { a, b, on: fault.shorted ? CLOSED : seriesAdmittance(fault.value ?? values.ohms ?? CLOSED_OHMS), switched: true });
  },
};
