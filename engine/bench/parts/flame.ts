import { z } from 'zod';
import { CLOSED } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { conditionIn, endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const flameSchema = z.strictObject({
  kind: z.literal('flame'),
  label: z.string().max(120).optional(),
  /** The flame rod, the burner it stands over. */
  between: pairSchema,
  /** Rectified DC current with the rated AC volts across the flame. */
  amps: textSchema,
  rated: textSchema,
  'lit-when': textSchema,
  lead: leadsSchema.optional(),
});

export type FlameSpec = z.infer<typeof flameSchema>;

/** Ω of the flame to AC: tens of volts per microampere (common practice: 120 V gives a few µA). */
const FLAME_OHMS = 3e7;

/**
 * A flame between a rod and the grounded burner passes more current one way than the other. While lit: AC sees 30 MΩ; the DC that a
 * microammeter in the rod's lead shows is rated amps × |V| / rated V, V the AC volts across the flame. So a broken rod wire, a burner without
 * ground, or line and neutral reversed give none; a fouled rod (`becomes: 0.3 uA`) gives less; a rod that touches ground gives none, as
 * the volts are gone. The DC loop itself is not solved. Source: flame rectification, data sheets of ignition controls.
 */
export const flame: PartKind<FlameSpec> = {
  kind: 'flame',
  about: 'a flame',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [...valueIn('amps', spec.amps, RULES.amps), ...valueIn('rated', spec.rated, RULES.ratedVolts)],
  conditions: (spec) => conditionIn('lit-when', spec['lit-when']),
  states: () => ['out', 'lit'],
  modes: ['open', 'shorted'],
  value: () => RULES.amps,
  stamp(_spec, part, circuit) {
    const { fault, values } = part;
    const [a = -1, b = -1] = part.ends;
    const rule = circuit.rule(part, 'lit-when');
    // A rod that is broken or shorted takes nothing from the flame itself.
    circuit.state(part, { rank: 'now', start: 0, next: (view) => Number(rule(view)) });
    const perVolt = (fault.value ?? values.amps ?? 0) / (values.rated ?? 1);
    const sees = !fault.open && !fault.absent && !fault.shorted;
    circuit.senses(part, (view) => (sees && view.state(part.index) === 1 ? perVolt * view.volts(a, b) : 0));
    if (fault.shorted) circuit.branch(part, { a, b, on: CLOSED });
    else if (sees) circuit.branch(part, { a, b, on: { re: 1 / FLAME_OHMS, im: 0, dc: 1 / FLAME_OHMS }, switched: true });
  },
};
