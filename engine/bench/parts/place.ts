import { z } from 'zod';
import { type QuantityKindName, quantityKind } from '../../quantity/index.ts';
import { textSchema } from '../names.ts';
import { conditionIn, type PartKind, type ValueRule, valueIn } from '../part-kind.ts';

/** What an instrument that is no electrical meter can read. */
export const PLACE_QUANTITIES = [
  'temperature',
  'temperature-difference',
  'pressure',
  'humidity',
  'volume-flow',
  'concentration',
  'time',
] as const satisfies readonly QuantityKindName[];

export const placeSchema = z.strictObject({
  kind: z.literal('place'),
  label: z.string().max(120).optional(),
  reads: z.enum(PLACE_QUANTITIES),
  is: textSchema,
  while: textSchema.optional(),
  /** What it reads while that does not hold. */
  else: textSchema.optional(),
});

export type PlaceSpec = z.infer<typeof placeSchema>;

const DIMENSION = {
  temperature: 'temperature',
  'temperature-difference': 'temperature difference',
  pressure: 'pressure',
  humidity: 'number',
  'volume-flow': 'volume flow',
  concentration: 'number',
  time: 'time',
} as const;

const ruleOf = (spec: PlaceSpec): ValueRule => ({
  dimension: DIMENSION[spec.reads],
  least: Math.max(quantityKind(spec.reads).floor, -1e6),
  most: 1e6,
});

/** A point where an instrument reads something that the circuit only switches: manifold pressure, supply air. */
export const place: PartKind<PlaceSpec> = {
  kind: 'place',
  about: 'a place',
  ends: () => [],
  values: (spec) => [...valueIn('is', spec.is, ruleOf(spec)), ...valueIn('else', spec.else, ruleOf(spec))],
  conditions: (spec) => conditionIn('while', spec.while),
  states: () => [],
  modes: [],
  value: ruleOf,
  trouble(spec) {
    if (spec.while !== undefined && spec.else === undefined) return { field: 'while', missing: 'else' };
    return spec.else !== undefined && spec.while === undefined ? { field: 'else', missing: 'while' } : undefined;
  },
  stamp(spec, part, circuit) {
    const usual = part.fault.value ?? part.values.is ?? Number.NaN;
    const otherwise = part.values.else ?? Number.NaN;
    const rule = spec.while === undefined ? undefined : circuit.rule(part, 'while');
    circuit.place(part, spec.reads, (view) => (!rule || rule(view) ? usual : otherwise));
  },
};
