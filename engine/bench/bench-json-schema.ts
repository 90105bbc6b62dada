import { z } from 'zod';
import { benchSchema } from './bench.ts';

/** The JSON Schema (draft 2020-12) of a bench file, for editors. */
export function benchJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(benchSchema, { target: 'draft-2020-12', io: 'input', reused: 'ref' });
  return { title: 'Bench', description: 'A circuit, what a tech can set, see and reach, and how it can break.', ...schema };
}
