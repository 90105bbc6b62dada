import { z } from 'zod';
import { nameSchema, textSchema } from '../names.ts';
import type { PartKind } from '../part-kind.ts';

export const sequenceSchema = z.strictObject({
  kind: z.literal('sequence'),
  label: z.string().max(120).optional(),
  /** Each stage with its ways out, tried in order: the stage it goes to and the condition. The first stage is at rest. */
  stages: z.record(nameSchema, z.record(nameSchema, textSchema)),
});

export type SequenceSpec = z.infer<typeof sequenceSchema>;

/**
 * A control's own logic: stages, and the conditions that take it from one to the next once everything else is at rest. What is solved is
 * where it ends; a reading taken on the way wants a setting that holds the stage.
 */
export const sequence: PartKind<SequenceSpec> = {
  kind: 'sequence',
  about: 'a sequence',
  ends: () => [],
  values: () => [],
  conditions: (spec) =>
    Object.entries(spec.stages).flatMap(([stage, exits]) =>
      Object.entries(exits).map(([to, text]) => ({ key: `${stage}>${to}`, path: ['stages', stage, to], text })),
    ),
  states: (spec) => Object.keys(spec.stages),
  modes: [],
  value: () => undefined,
  stamp(spec, part, circuit) {
    const names = Object.keys(spec.stages);
    const { state } = part.fault;
    if (part.fault.absent || state !== undefined) {
      circuit.state(part, { rank: 'sequence', start: Math.max(0, names.indexOf(state ?? '')) });
      return;
    }
    const exits = names.map((stage) =>
      Object.keys(spec.stages[stage] ?? {}).map((to) => ({ to: names.indexOf(to), rule: circuit.rule(part, `${stage}>${to}`) })),
    );
    circuit.state(part, {
      rank: 'sequence',
      start: 0,
      next(view) {
        const now = view.state(part.index);
        return exits[now]?.find((exit) => exit.to >= 0 && exit.rule(view))?.to ?? now;
      },
    });
  },
};
