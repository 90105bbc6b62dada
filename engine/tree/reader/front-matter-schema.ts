import { z } from 'zod';
import { QUANTITY_KIND_NAMES } from '../../quantity/index.ts';
import { slugSchema } from '../tree.ts';

const text = z.string().trim().min(1);

export const quantityFactInput = z
  .strictObject({
    quantity: z.enum(QUANTITY_KIND_NAMES).meta({ description: 'What the fact is.' }),
    ask: text.meta({ description: 'How the tech is asked for it.' }),
    usual: text.meta({ description: 'What it usually is, with its unit, such as 120 V.' }),
    from: text.meta({ description: 'The least that this tree is made for, with its unit.' }),
    to: text.meta({ description: 'The most that this tree is made for, with its unit.' }),
  })
  .meta({ description: 'A fact that is a quantity.' });

export const choiceFactInput = z
  .strictObject({
    choices: z.array(slugSchema).min(2).meta({ description: 'What it may be.' }),
    ask: text.meta({ description: 'How the tech is asked for it.' }),
    usual: slugSchema.meta({ description: 'What it usually is, one of the choices.' }),
  })
  .meta({ description: 'A fact that is one of a list of choices.' });

/** The front matter as it is written. Every value is text: the reader of YAML turns none into numbers or yes and no. */
export const frontMatterSchema = z
  .strictObject({
    title: text.meta({ description: 'The name of the tree, as the crew calls it.' }),
    complaint: text.meta({ description: 'What the customer says or the tech finds, in a sentence.' }),
    benches: z.array(slugSchema).meta({ description: 'The benches that the tree is proved on, one for each wiring variant.' }).optional(),
    facts: z
      .record(slugSchema, z.union([quantityFactInput, choiceFactInput]))
      .meta({ description: 'What is true of one site and not of the next. Bands may use these.' })
      .optional(),
    settings: z
      .record(slugSchema, z.array(slugSchema).min(2))
      .meta({ description: 'Settings that no bench of the tree has, with their states, first as found.' })
      .optional(),
    meter: text.meta({ description: 'The accuracy of the meter, such as 1 % + 3 counts.' }).optional(),
    recheck: text.meta({ description: 'The step that shows the complaint gone, and the way on that means it: water-runs is runs.' }).optional(),
    handoff: slugSchema.meta({ description: 'The Handoff where “cannot” goes when a step names no other way.' }).optional(),
  })
  .meta({ title: 'Front matter of an Ohmward tree', description: 'The YAML between the two lines of dashes at the top of a .tree.mdx file.' });

export type FrontMatterInput = z.infer<typeof frontMatterSchema>;

/** The JSON Schema of the front matter, for editors; made from the schema that the reader itself uses. */
export function frontMatterJsonSchema(): unknown {
  return z.toJSONSchema(frontMatterSchema, { target: 'draft-2020-12', io: 'input' });
}
