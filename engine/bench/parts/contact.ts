import { z } from 'zod';
import { CLOSED_OHMS, seriesAdmittance } from '../circuit-builder.ts';
import { leadsSchema, nameSchema, pairSchema, textSchema } from '../names.ts';
import { conditionIn, endsBetween, type PartKind, RULES, valueIn } from '../part-kind.ts';

/** What every contact has, whoever moves it. */
export const contactFields = {
  label: z.string().max(120).optional(),
  between: pairSchema,
  'closed-when': textSchema,
  /** While closed. */
  ohms: textSchema.optional(),
  lead: leadsSchema.optional(),
};

/** The parts or signs that a safety contact guards. */
export const guardsSchema = z.union([nameSchema, z.array(nameSchema).min(1)]);

export const contactSchema = z.strictObject({ kind: z.literal('contact'), ...contactFields, safety: guardsSchema.optional() });

export type ContactSpec = z.infer<typeof contactSchema>;

type AnyContact = Omit<ContactSpec, 'kind'>;

/** Closed, R = 0.02 Ω; open, no part at all. Source: new small relay contacts, under 0.2 Ω in data sheets. */
export function contactKind<S extends AnyContact>(kind: string, about: string): PartKind<S> {
  return {
    kind,
    about,
    ends: (spec) => endsBetween(spec.between),
    values: (spec) => valueIn('ohms', spec.ohms, RULES.ohms),
    conditions: (spec) => conditionIn('closed-when', spec['closed-when']),
    states: () => ['open', 'closed'],
    modes: ['open', 'shorted', 'stuck-open', 'stuck-closed'],
    value: () => RULES.ohms,
    stamp(_spec, part, circuit) {
      const { fault } = part;
      const [a = -1, b = -1] = part.ends;
      const stuck = fault.open || fault.absent || fault.stuck === 'open' ? 0 : fault.shorted || fault.stuck === 'closed' ? 1 : undefined;
      const rule = circuit.rule(part, 'closed-when');
      circuit.state(part, stuck === undefined ? { rank: 'now', start: 0, next: (view) => Number(rule(view)) } : { rank: 'now', start: stuck });
      circuit.branch(part, { a, b, on: seriesAdmittance(fault.value ?? part.values.ohms ?? CLOSED_OHMS), switched: true });
    },
  };
}

/** A contact that the equipment moves: a relay's, a thermostat's, a control's dry contact. */
export const contact: PartKind<ContactSpec> = contactKind('contact', 'a contact');
