import { z } from 'zod';
import { THERMISTOR_CURVES, thermistorOhms } from '../../trade/index.ts';
import { CLOSED, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, pairSchema, textSchema } from '../names.ts';
import { endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

export const thermistorSchema = z.strictObject({
  kind: z.literal('thermistor'),
  label: z.string().max(120).optional(),
  between: pairSchema,
  /** At 25 °C (77 °F); 10 kohm where absent. */
  ohms: textSchema.optional(),
  curve: z.enum(THERMISTOR_CURVES),
  temperature: textSchema,
  lead: leadsSchema.optional(),
});

export type ThermistorSpec = z.infer<typeof thermistorSchema>;

/** R(T) on a published curve (engine/trade thermistor). Ohms, kelvin. A thermometer held to it reads its temperature. */
export const thermistor: PartKind<ThermistorSpec> = {
  kind: 'thermistor',
  about: 'a thermistor',
  ends: (spec) => endsBetween(spec.between),
  values: (spec) => [...valueIn('ohms', spec.ohms, RULES.ohms), ...valueIn('temperature', spec.temperature, RULES.temperature)],
  conditions: () => [],
  states: () => [],
  modes: ['open', 'shorted'],
  value: () => RULES.ohms,
  trouble(spec, values) {
    const ohms = thermistorOhms(values.ohms ?? 10000, spec.curve, values.temperature ?? Number.NaN);
    return ohms.ok ? undefined : { field: 'temperature', why: ohms.problem };
  },
  stamp(spec, part, circuit) {
    const { fault, values } = part;
    const [a = -1, b = -1] = part.ends;
    const kelvin = values.temperature ?? Number.NaN;
    circuit.place(part, 'temperature', () => kelvin);
    if (fault.open || fault.absent) return;
    const ohms = thermistorOhms(values.ohms ?? 10000, spec.curve, kelvin);
    if (ohms.ok) circuit.branch(part, { a, b, on: fault.shorted ? CLOSED : seriesAdmittance(fault.value ?? ohms.value) });
  },
};
