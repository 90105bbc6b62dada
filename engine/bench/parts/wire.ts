import { z } from 'zod';
import { wireOhms } from '../../trade/index.ts';
import { seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { cutAtTo, endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const wireSchema = z.strictObject({
  kind: z.literal('wire'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  gauge: textSchema,
  /** One way. */
  length: textSchema,
  temperature: textSchema.optional(),
  /** `30 pF/ft to R`: capacitance to a conductor that runs beside it. */
  stray: textSchema.optional(),
  lead: leadsSchema.optional(),
});

export type WireSpec = z.infer<typeof wireSchema>;

// A wire of no length still joins two points.
const LEAST_OHMS = 1e-4;
const STRAY = { dimension: 'capacitance per length', least: 1e-15, most: 1e-8 } as const;

/**
 * R of the copper from gauge, length and temperature (20 °C where not given). Stray capacitance C = c·length, half at each end, so that
 * either piece of a broken wire still has some. Source: engine/trade wire; the π model of a short line.
 */
export const wire: PartKind<WireSpec> = {
  kind: 'wire',
  about: 'a wire',
  ends(spec) {
    const stray = spec.stray === undefined ? undefined : cutAtTo(spec.stray);
    return stray
      ? [...endsBetween(spec.between), { node: stray.right, path: ['stray'], offset: stray.offset, fixed: true }]
      : endsBetween(spec.between);
  },
  values(spec) {
    const stray = spec.stray === undefined ? undefined : (cutAtTo(spec.stray) ?? { left: spec.stray });
    return [
      ...valueIn('gauge', spec.gauge, RULES.gauge),
      ...valueIn('length', spec.length, RULES.length),
      ...valueIn('temperature', spec.temperature, RULES.temperature),
      ...(stray ? [{ key: 'stray', field: 'stray', text: stray.left, offset: 0, rule: STRAY }] : []),
    ];
  },
  conditions: () => [],
  states: () => [],
  modes: ['open'],
  value: () => RULES.ohms,
  trouble(spec, values) {
    if (spec.stray !== undefined && !cutAtTo(spec.stray)) return { field: 'stray', expected: 'a capacitance and a node, such as “30 pF/ft to R”' };
    const copper = wireOhms(values.gauge ?? 0, values.length ?? 0, values.temperature);
    return copper.ok ? undefined : { field: 'gauge', why: copper.problem };
  },
  stamp(_spec, part, circuit) {
    const { values, fault } = part;
    const [a = -1, b = -1, beside] = part.ends;
    if (fault.absent) return;
    const copper = wireOhms(values.gauge ?? 0, values.length ?? 0, values.temperature);
    if (!copper.ok) return;
    const ohms = Math.max(fault.value ?? copper.value, LEAST_OHMS);
    circuit.branch(part, { a, b, on: fault.open ? { re: 0, im: 0, dc: 0 } : seriesAdmittance(ohms) });
    if (beside === undefined) return;
    const half = { re: 0, im: (circuit.omega * (values.stray ?? 0) * (values.length ?? 0)) / 2, dc: 0 };
    circuit.branch(part, { a, b: beside, on: half });
    circuit.branch(part, { a: b, b: beside, on: half });
  },
};
