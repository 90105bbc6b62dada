import { z } from 'zod';
import type { FaultMode } from '../becoming.ts';
import type { CircuitBuilder, StampedPart } from '../circuit-builder.ts';
import type { ConditionText, End, PartKind, PartTrouble, ValueRule, ValueText } from '../part-kind.ts';
import { capacitor, capacitorSchema } from './capacitor.ts';
import { coil, coilSchema } from './coil.ts';
import { contact, contactSchema } from './contact.ts';
import { dcSource, dcSourceSchema } from './dc-source.ts';
import { flame, flameSchema } from './flame.ts';
import { fuse, fuseSchema } from './fuse.ts';
import { inductor, inductorSchema } from './inductor.ts';
import { limit, limitSchema } from './limit.ts';
import { load, loadSchema } from './load.ts';
import { place, placeSchema } from './place.ts';
import { resistor, resistorSchema } from './resistor.ts';
import { sequence, sequenceSchema } from './sequence.ts';
import { source, sourceSchema } from './source.ts';
import { statePart, stateSchema } from './state.ts';
import { switchPart, switchSchema } from './switch.ts';
import { thermistor, thermistorSchema } from './thermistor.ts';
import { transformer, transformerSchema } from './transformer.ts';
import { wire, wireSchema } from './wire.ts';

/** A part as its file has it. The list of kinds is here and nowhere else. */
export const partSchema = z.discriminatedUnion('kind', [
  sourceSchema,
  dcSourceSchema,
  transformerSchema,
  contactSchema,
  switchSchema,
  limitSchema,
  wireSchema,
  coilSchema,
  loadSchema,
  resistorSchema,
  capacitorSchema,
  inductorSchema,
  fuseSchema,
  thermistorSchema,
  flameSchema,
  stateSchema,
  sequenceSchema,
  placeSchema,
]);

export type Part = z.infer<typeof partSchema>;
export type PartKindName = Part['kind'];

/** A part together with what its kind knows of it. */
export type KnownPart = {
  readonly spec: Part;
  readonly about: string;
  readonly ends: readonly End[];
  readonly values: readonly ValueText[];
  readonly conditions: readonly ConditionText[];
  readonly states: readonly string[];
  readonly modes: readonly FaultMode[];
  readonly value: ValueRule | undefined;
  readonly trouble: (values: Readonly<Record<string, number>>) => PartTrouble | undefined;
  readonly stamp: (part: StampedPart, circuit: CircuitBuilder) => void;
};

function known<S extends Part>(kind: PartKind<S>, spec: S): KnownPart {
  return {
    spec,
    about: kind.about,
    ends: kind.ends(spec),
    values: kind.values(spec),
    conditions: kind.conditions(spec),
    states: kind.states(spec),
    modes: kind.modes,
    value: kind.value(spec),
    trouble: (values) => kind.trouble?.(spec, values),
    stamp: (part, circuit) => kind.stamp(spec, part, circuit),
  };
}

/** Joins a part to its kind. */
export function knownPart(spec: Part): KnownPart {
  switch (spec.kind) {
    case 'source':
      return known(source, spec);
    case 'dc-source':
      return known(dcSource, spec);
    case 'transformer':
      return known(transformer, spec);
    case 'contact':
      return known(contact, spec);
    case 'switch':
      return known(switchPart, spec);
    case 'limit':
      return known(limit, spec);
    case 'wire':
      return known(wire, spec);
    case 'coil':
      return known(coil, spec);
    case 'load':
      return known(load, spec);
    case 'resistor':
      return known(resistor, spec);
    case 'capacitor':
      return known(capacitor, spec);
    case 'inductor':
      return known(inductor, spec);
    case 'fuse':
      return known(fuse, spec);
    case 'thermistor':
      return known(thermistor, spec);
    case 'flame':
      return known(flame, spec);
    case 'state':
      return known(statePart, spec);
    case 'sequence':
      return known(sequence, spec);
    case 'place':
      return known(place, spec);
  }
}

export const PART_KIND_NAMES: readonly PartKindName[] = partSchema.options.map((option) => option.shape.kind.value);
