import { z } from 'zod';
import { QUANTITY_KIND_NAMES } from '../../quantity/index.ts';
import { slugSchema } from '../../tree/index.ts';
import { walkEventSchema } from '../../walk/index.ts';

// As long as any name of a terminal, lead or sign gets.
const name = z.string().min(1).max(80);
const pair = z.tuple([name, name]);
const ends = { from: name, to: name };

/** What a tech can do in a drill. What is done to the circuit is written as the acts of a tree are. */
export const drillMoveSchema = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('turn'), setting: slugSchema, state: slugSchema }),
  z.strictObject({ do: z.literal('jumper'), ...ends }),
  z.strictObject({ do: z.literal('remove-jumper'), ...ends }),
  z.strictObject({ do: z.literal('lift'), lead: name }),
  z.strictObject({ do: z.literal('land'), lead: name }),
  /** The meter tried on a source that is known to be live, away from this circuit. */
  z.strictObject({ do: z.literal('prove-meter') }),
  /** Dial and leads: red first. */
  z.strictObject({ do: z.literal('measure'), takes: z.enum(QUANTITY_KIND_NAMES), across: pair, input: z.literal('low').optional() }),
  z.strictObject({ do: z.literal('measure-at'), takes: z.enum(QUANTITY_KIND_NAMES), at: name }),
  z.strictObject({ do: z.literal('look'), sign: name }),
  /** The answer, which ends the drill. None: nothing is wrong. Several: they cannot be told apart. */
  z.strictObject({ do: z.literal('name'), faults: z.array(slugSchema).max(20) }),
  z.strictObject({ do: z.literal('give-up') }),
  /** In `tree` order: an event of the walk. */
  z.strictObject({ do: z.literal('walk'), event: walkEventSchema }),
]);

export type DrillMove = z.infer<typeof drillMoveSchema>;
