import { z } from 'zod';
import { coilImpedance } from '../../trade/index.ts';
import { CLOSED, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const coilSchema = z.strictObject({
  kind: z.literal('coil'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  rated: textSchema,
  /** Held in, at the rated volts. */
  va: textSchema,
  /** Of the winding: what an ohmmeter shows. */
  resistance: textSchema,
  /** Before it has pulled in; as held in where absent. */
  'inrush-va': textSchema.optional(),
  /** Share of the rated volts. */
  'pulls-in': textSchema.optional(),
  'drops-out': textSchema.optional(),
  lead: leadsSchema.optional(),
});

export type CoilSpec = z.infer<typeof coilSchema>;

/** Contactors must close at 85 % of their rating and let go between 20 and 75 % (IEC 60947-4-1, NEMA ICS 2; from memory). */
export const PULLS_IN = 0.85;
export const DROPS_OUT = 0.5;

/**
 * |Z| = V²/VA, X = √(Z² − R²). Pulled in once its volts reach `pulls-in` of the rating, dropped out below `drops-out`; between
 * the two it stays as it is. A winding value below the healthy one is a shorted turn and takes X down with R; one above it is a bad joint
 * in series and leaves X. Volts rms, VA, ohms.
 */
export const coil: PartKind<CoilSpec> = {
  kind: 'coil',
  about: 'a coil',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [
    ...valueIn('rated', spec.rated, RULES.ratedVolts),
    ...valueIn('va', spec.va, RULES.va),
    ...valueIn('resistance', spec.resistance, RULES.ohms),
    ...valueIn('inrush-va', spec['inrush-va'], RULES.va),
    ...valueIn('pulls-in', spec['pulls-in'], RULES.share),
    ...valueIn('drops-out', spec['drops-out'], RULES.share),
  ],
  conditions: () => [],
  states: () => ['dropped-out', 'pulled-in'],
  modes: ['open', 'shorted', 'stuck-open', 'stuck-closed'],
  value: () => RULES.ohms,
  trouble(_spec, values) {
    for (const field of ['va', 'inrush-va']) {
      const va = values[field];
      const rating = va === undefined ? undefined : coilImpedance(values.rated ?? 0, va, values.resistance ?? 0);
      if (rating && !rating.ok) return { field: 'resistance', why: rating.problem };
    }
    if ((values['drops-out'] ?? 0) > (values['pulls-in'] ?? PULLS_IN)) return { field: 'drops-out', expected: 'less than “pulls-in”' };
    return undefined;
  },
  stamp(_spec, part, circuit) {
    const { values, fault } = part;
    const [a = -1, b = -1] = part.ends;
    const rated = values.rated ?? 0;
    const healthy = values.resistance ?? 0;
    const pulls = (values['pulls-in'] ?? PULLS_IN) * rated;
    const drops = Math.min((values['drops-out'] ?? DROPS_OUT) * rated, pulls);
    const dead = fault.absent || fault.stuck !== undefined;
    // A winding that is broken or shorted makes no pull, whatever the volts across it.
    const broken = fault.open || fault.shorted;
    circuit.state(part, {
      rank: 'now',
      start: Number(fault.stuck === 'closed' && !fault.absent),
      ...(!dead && !broken && { next: (view) => Number(view.volts(a, b) >= (view.state(part.index) === 1 ? drops : pulls)) }),
    });
    if (fault.absent) return;
    const admittance = (va: number) => {
      const rating = coilImpedance(rated, va, healthy);
      const reactance = rating.ok ? rating.value.reactance : 0;
      const ohms = fault.value ?? healthy;
      return seriesAdmittance(ohms, ohms < healthy ? (reactance * ohms) / healthy : reactance);
    };
    const hold = admittance(values.va ?? 0);
    if (fault.shorted) circuit.branch(part, { a, b, on: CLOSED });
    else if (fault.open) circuit.branch(part, { a, b, on: { re: 0, im: 0, dc: 0 } });
    else if (values['inrush-va'] === undefined) circuit.branch(part, { a, b, on: hold });
    else circuit.branch(part, { a, b, on: hold, off: admittance(values['inrush-va']), switched: true });
  },
};
