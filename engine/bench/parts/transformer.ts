import { z } from 'zod';
import { transformerModel } from '../../trade/index.ts';
import { CLOSED, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { cutAtTo, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const transformerSchema = z.strictObject({
  kind: z.literal('transformer'),
  label: z.string().max(120).optional(),
  primary: pairSchema,
  /** Hot, common. */
  secondary: pairSchema,
  /** `120 V to 24 V`: primary volts, secondary volts at the rated load. */
  rated: textSchema,
  va: textSchema,
  'no-load': textSchema,
  'no-load-va': textSchema.optional(),
  lead: leadsSchema.optional(),
});

export type TransformerSpec = z.infer<typeof transformerSchema>;

const labelled = (values: Readonly<Record<string, number>>, noLoad: number) =>
  transformerModel(values['primary-volts'] ?? 0, values['rated-volts'] ?? 0, values.va ?? 0, noLoad, values['no-load-va']);

/**
 * Ideal ratio k = no-load volts / primary volts; series resistance Rs = (no-load − rated) / (VA / rated) in the secondary;
 * magnetising reactance primary volts² / no-load VA across the primary (10 % of the VA where not given). To DC it is two windings:
 * Rs/2 in the secondary, Rs/2/k² in the primary. An open primary leaves the magnetising reactance seen from the secondary, X·k².
 * Source: the equivalent circuit of a transformer, leakage reactance and core loss left out.
 */
export const transformer: PartKind<TransformerSpec> = {
  kind: 'transformer',
  about: 'a transformer',
  ends: (spec) => [
    { node: spec.primary[0], path: ['primary', 0] },
    { node: spec.primary[1], path: ['primary', 1] },
    { node: spec.secondary[0], path: ['secondary', 0] },
    { node: spec.secondary[1], path: ['secondary', 1] },
  ],
  values(spec) {
    const rated = cutAtTo(spec.rated);
    return [
      { key: 'primary-volts', field: 'rated', text: rated?.left ?? spec.rated, offset: 0, rule: RULES.ratedVolts },
      ...(rated ? [{ key: 'rated-volts', field: 'rated', text: rated.right, offset: rated.offset, rule: RULES.ratedVolts }] : []),
      ...valueIn('va', spec.va, RULES.va),
      ...valueIn('no-load', spec['no-load'], RULES.ratedVolts),
      ...valueIn('no-load-va', spec['no-load-va'], RULES.va),
    ];
  },
  conditions: () => [],
  states: () => [],
  modes: ['open', 'primary-open', 'secondary-open', 'shorted', 'swapped'],
  value: () => RULES.ratedVolts,
  trouble(spec, values) {
    if (!cutAtTo(spec.rated)) return { field: 'rated', expected: 'primary to secondary volts, such as “120 V to 24 V”' };
    const model = labelled(values, values['no-load'] ?? 0);
    return model.ok ? undefined : { field: 'no-load', why: model.problem };
  },
  stamp(_spec, part, circuit) {
    const { values, fault } = part;
    const [p = -1, q = -1, s = -1, t = -1] = part.ends;
    const model = labelled(values, values['no-load'] ?? 0);
    if (!model.ok || fault.absent) return;
    const { seriesOhms, primaryOhms, secondaryOhms } = model.value;
    // A changed value is another no-load voltage on the same core and windings: a wrong tap, or the wrong part.
    const ratio = fault.value === undefined ? model.value.ratio : fault.value / (values['primary-volts'] ?? 1);
    const primaryOpen = fault.open || fault.primaryOpen;
    const magnetising = model.value.magnetising;
    const [hot, back] = fault.swapped ? [t, s] : [s, t];
    circuit.source(part, hot, back, primaryOpen || fault.secondaryOpen ? 0 : ratio * (values['primary-volts'] ?? 0));
    // The first branch is the primary's, open or not: its current is the part's.
    circuit.branch(part, { a: p, b: q, on: primaryOpen ? { re: 0, im: 0, dc: 0 } : { re: 0, im: -1 / magnetising, dc: 1 / primaryOhms } });
    if (!primaryOpen) {
      if (!fault.secondaryOpen) circuit.transformer({ ...part, ends: [p, q, hot, back] }, ratio, seriesOhms);
    }
    if (!fault.secondaryOpen) {
      const seen = seriesAdmittance(seriesOhms, magnetising * ratio ** 2);
      const winding = 1 / secondaryOhms;
      circuit.branch(part, { a: s, b: t, on: primaryOpen ? { ...seen, dc: winding } : { re: 0, im: 0, dc: winding } });
    }
    if (fault.shorted) circuit.branch(part, { a: s, b: t, on: CLOSED });
  },
};
