import { z } from 'zod';
import { type CircuitBuilder, type StampedPart, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { conditionIn, endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

/** Ω of a 120 V branch circuit with its service; common practice, where the file does not say. */
export const SOURCE_OHMS = 0.3;

export const sourceSchema = z.strictObject({
  kind: z.literal('source'),
  label: z.string().max(120).optional(),
  /** Hot, return. */
  between: pairSchema,
  /** RMS. */
  volts: textSchema,
  ohms: textSchema.optional(),
  /** Degrees that it leads the bench's reference by. */
  phase: z.number().min(-360).max(360).optional(),
  when: textSchema.optional(),
  lead: leadsSchema.optional(),
});

export type SourceSpec = z.infer<typeof sourceSchema>;

/**
 * An AC supply: V∠phase behind R, stamped in Norton form J = V/R, Y = 1/R. Off, it is an open circuit, as a disconnect leaves it.
 * Volts rms, ohms. Source: Thévenin and Norton equivalents, any circuit textbook.
 */
export const source: PartKind<SourceSpec> = {
  kind: 'source',
  about: 'an AC supply',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [...valueIn('volts', spec.volts, RULES.volts), ...valueIn('ohms', spec.ohms, RULES.ohms)],
  conditions: (spec) => conditionIn('when', spec.when),
  states: () => ['dead', 'live'],
  modes: ['open', 'swapped'],
  value: () => RULES.volts,
  stamp(spec, part, circuit) {
    const volts = part.fault.value ?? part.values.volts ?? 0;
    const angle = ((spec.phase ?? 0) * Math.PI) / 180;
    supply(part, circuit, spec.when, volts, { re: volts * Math.cos(angle), im: volts * Math.sin(angle), dc: 0 });
  },
};

/** What AC and DC supplies share: the ends, the switch, the Norton form. */
export function supply(
  part: StampedPart,
  circuit: CircuitBuilder,
  when: string | undefined,
  volts: number,
  emf: { readonly re: number; readonly im: number; readonly dc: number },
): void {
  const [first = -1, second = -1] = part.ends;
  const [hot, back] = part.fault.swapped ? [second, first] : [first, second];
  const dead = part.fault.open || part.fault.absent;
  const rule = when === undefined ? undefined : circuit.rule(part, 'when');
  const next = dead || !rule ? {} : { next: (view: Parameters<typeof rule>[0]) => Number(rule(view)) };
  circuit.state(part, { rank: 'now', start: Number(!dead && !rule), ...next });
  const on = seriesAdmittance(part.values.ohms ?? SOURCE_OHMS);
  circuit.branch(part, { a: hot, b: back, on, drive: { re: emf.re * on.re, im: emf.im * on.re, dc: emf.dc * on.re }, switched: true });
  circuit.source(part, hot, back, volts);
}
