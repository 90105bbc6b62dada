import { z } from 'zod';
import { CLOSED, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { conditionIn, endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

const common = {
  kind: z.literal('load'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  /** Draws current only while this holds; always where absent. */
  when: textSchema.optional(),
  lead: leadsSchema.optional(),
  /** Ω, of a load that is plain resistance. */
  ohms: textSchema.optional(),
  /** At the rated volts. */
  va: textSchema.optional(),
  rated: textSchema.optional(),
  /** Lagging; 1 where absent. */
  'power-factor': textSchema.optional(),
};

export const loadSchema = z.strictObject(common);

export type LoadSpec = z.infer<typeof loadSchema>;

/**
 * What uses power and does not move a contact: a control board, a motor, an igniter. `ohms`, or |Z| = V²/VA at its rating with
 * R = |Z|·pf and X = |Z|·√(1 − pf²). Volts rms, VA, ohms. Source: the power triangle.
 */
export const load: PartKind<LoadSpec> = {
  kind: 'load',
  about: 'a load',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [
    ...valueIn('ohms', spec.ohms, RULES.ohms),
    ...valueIn('va', spec.va, RULES.va),
    ...valueIn('rated', spec.rated, RULES.ratedVolts),
    ...valueIn('power-factor', spec['power-factor'], { dimension: 'number', least: 0.01, most: 1 }),
  ],
  conditions: (spec) => conditionIn('when', spec.when),
  states: () => ['off', 'on'],
  modes: ['open', 'shorted', 'stuck-open', 'stuck-closed'],
  value: () => RULES.ohms,
  trouble(spec) {
    if (spec.ohms !== undefined) {
      return spec.va === undefined && spec.rated === undefined ? undefined : { field: 'ohms', expected: 'either “ohms”, or “va” and “rated”' };
    }
    if (spec.va === undefined) return { field: 'kind', missing: 'ohms' };
    return spec.rated === undefined ? { field: 'va', missing: 'rated' } : undefined;
  },
  stamp(spec, part, circuit) {
    const { values, fault } = part;
    const [a = -1, b = -1] = part.ends;
    const never = fault.open || fault.absent || fault.stuck === 'open';
    const always = fault.shorted || fault.stuck === 'closed' || spec.when === undefined;
    const rule = spec.when === undefined ? undefined : circuit.rule(part, 'when');
    const next = never || always || !rule ? {} : { next: (view: Parameters<typeof rule>[0]) => Number(rule(view)) };
    circuit.state(part, { rank: 'now', start: Number(!never && always), ...next });
    const impedance = values.ohms ?? (values.rated ?? 0) ** 2 / (values.va ?? 0);
    const factor = values.ohms === undefined ? (values['power-factor'] ?? 1) : 1;
    const drawn =
      fault.value === undefined ? seriesAdmittance(impedance * factor, impedance * Math.sqrt(1 - factor ** 2)) : seriesAdmittance(fault.value);
    circuit.branch(part, { a, b, on: fault.shorted ? CLOSED : drawn, switched: true });
  },
};
