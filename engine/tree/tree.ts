import { z } from 'zod';
import { QUANTITY_KIND_NAMES } from '../quantity/index.ts';
import { proseSchema } from './prose.ts';

/** Names in files: a step, a tree, a fact, a setting, a fault. */
export const slugSchema = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/);

/** Terminals as they are printed on equipment (R, C, K1, W/W1), and leads. */
export const terminalSchema = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9/+_.-]*$/);

/** ANSI Z535.6: danger will, warning could cause death or serious injury; caution minor or moderate; notice no injury. Worst first. */
export const SIGNALS = ['danger', 'warning', 'caution', 'notice'] as const;

export const CAUTION_SUBJECTS = [
  'line-voltage',
  'control-circuit',
  'gas',
  'flame',
  'hot-surface',
  'moving-parts',
  'water',
  'combustion-products',
  'sharp-edges',
  'ladder',
  'pressure',
  'refrigerant',
] as const;

export const cautionSchema = z.strictObject({ signal: z.enum(SIGNALS), about: z.enum(CAUTION_SUBJECTS), prose: proseSchema });

/** Where a way leads: a step of the same tree, or of another tree of the edition. */
export const targetSchema = z.strictObject({ tree: slugSchema.optional(), step: slugSchema });

/** A way on. `on` is a band's canonical text on a reading, a label on a look, a choice or band on an ask, `done` on an act. */
export const waySchema = z.strictObject({ on: z.string().min(1), to: targetSchema });

export const holdSchema = z.strictObject({ setting: slugSchema, state: slugSchema });

/** A number that is worked out for the site and shown in the step. `by` is a formula's canonical text; `unit` the one it is shown in. */
export const computedSchema = z.strictObject({ shows: z.string().min(1), by: z.string().min(1), unit: z.string().min(1).optional() });

/** What an Act changes, or proves. */
export const actionSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('turn'), setting: slugSchema, state: slugSchema }),
  z.strictObject({ do: z.literal('jumper'), from: terminalSchema, to: terminalSchema }),
  z.strictObject({ do: z.literal('remove-jumper'), from: terminalSchema, to: terminalSchema }),
  z.strictObject({ do: z.literal('lift'), lead: terminalSchema }),
  z.strictObject({ do: z.literal('land'), lead: terminalSchema }),
  z.strictObject({ do: z.literal('prove-meter') }),
]);

const common = {
  id: slugSchema,
  title: z.string().min(1),
  /** The usual time of the step. */
  minutes: z.number().nonnegative().max(1440),
  while: z.array(holdSchema),
  cautions: z.array(cautionSchema),
  prose: proseSchema,
  /** Absent where the step shows none, so that what was published before there were any keeps its name. */
  computed: z.array(computedSchema).min(1).optional(),
  photos: z.array(z.string().min(1)),
  cannot: targetSchema.optional(),
};

const ways = z.array(waySchema);

export const readingStepSchema = z.strictObject({
  kind: z.literal('reading'),
  ...common,
  takes: z.enum(QUANTITY_KIND_NAMES),
  /** Red lead, black lead. */
  across: z.tuple([terminalSchema, terminalSchema]).optional(),
  /** The place, for readings that have no two leads. */
  at: z.string().min(1).optional(),
  /** The unit that a bare number is typed in; the kind's own where absent. */
  unit: z.string().optional(),
  /** `low`: through a low-impedance input, so that stray voltage does not show. */
  input: z.literal('low').optional(),
  /** The fact that this reading tells. */
  sets: slugSchema.optional(),
  /** `dead`: landing in the lowest band proves these two points dead. */
  proves: z.literal('dead').optional(),
  ways,
});

export const lookStepSchema = z.strictObject({
  kind: z.literal('look'),
  ...common,
  at: z.string().min(1).optional(),
  sign: slugSchema.optional(),
  ways,
});

export const actStepSchema = z.strictObject({ kind: z.literal('act'), ...common, does: z.array(actionSchema), ways });

export const askStepSchema = z.strictObject({ kind: z.literal('ask'), ...common, fact: slugSchema, ways });

/** No fault named: nothing wrong found. */
export const findingStepSchema = z.strictObject({ kind: z.literal('finding'), ...common, faults: z.array(slugSchema), repair: proseSchema });

export const handoffStepSchema = z.strictObject({ kind: z.literal('handoff'), ...common, to: z.string().min(1) });

export const stepSchema = z.discriminatedUnion('kind', [
  readingStepSchema,
  lookStepSchema,
  actStepSchema,
  askStepSchema,
  findingStepSchema,
  handoffStepSchema,
]);

/** A fact of the site. Quantities are kept as written (`120 V`), so that a file reads as it was meant. */
export const quantityFactSchema = z.strictObject({
  quantity: z.enum(QUANTITY_KIND_NAMES),
  ask: z.string().min(1),
  usual: z.string().min(1),
  from: z.string().min(1),
  to: z.string().min(1),
});

export const choiceFactSchema = z.strictObject({ choices: z.array(slugSchema).min(2), ask: z.string().min(1), usual: slugSchema });

export const factSpecSchema = z.union([quantityFactSchema, choiceFactSchema]);

export const treeSchema = z.strictObject({
  name: slugSchema,
  title: z.string().min(1),
  complaint: z.string().min(1),
  benches: z.array(slugSchema),
  facts: z.record(slugSchema, factSpecSchema),
  /** Settings by their states, first as found; for trees without a bench, or with settings no bench has. */
  settings: z.record(slugSchema, z.array(slugSchema).min(2)),
  /** Canonical text of the meter's accuracy. */
  meter: z.string().min(1),
  /** The step that shows the complaint gone, and the way on that means it. */
  recheck: z.strictObject({ step: slugSchema, passes: z.string().min(1) }).optional(),
  /** Where `cannot` goes when a step names no other way. */
  handoff: slugSchema.optional(),
  opening: z.strictObject({ cautions: z.array(cautionSchema), prose: proseSchema }),
  /** In document order; the first is where a walk starts. */
  steps: z.array(stepSchema).min(1),
});

export type Signal = (typeof SIGNALS)[number];
export type CautionSubject = (typeof CAUTION_SUBJECTS)[number];
export type Caution = z.infer<typeof cautionSchema>;
export type Target = z.infer<typeof targetSchema>;
export type Way = z.infer<typeof waySchema>;
export type Computed = z.infer<typeof computedSchema>;
export type SettingHold = z.infer<typeof holdSchema>;
export type Action = z.infer<typeof actionSchema>;
export type ReadingStep = z.infer<typeof readingStepSchema>;
export type LookStep = z.infer<typeof lookStepSchema>;
export type ActStep = z.infer<typeof actStepSchema>;
export type AskStep = z.infer<typeof askStepSchema>;
export type FindingStep = z.infer<typeof findingStepSchema>;
export type HandoffStep = z.infer<typeof handoffStepSchema>;
export type Step = z.infer<typeof stepSchema>;
export type StepKind = Step['kind'];
export type QuantityFact = z.infer<typeof quantityFactSchema>;
export type ChoiceFact = z.infer<typeof choiceFactSchema>;
export type FactSpec = z.infer<typeof factSpecSchema>;
export type Tree = z.infer<typeof treeSchema>;

export const isChoice = (fact: FactSpec): fact is ChoiceFact => 'choices' in fact;

/** The ways on of any step; findings and handoffs have none. */
export const waysOf = (step: Step): readonly Way[] => ('ways' in step ? step.ways : []);
