import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { frontMatterJsonSchema } from '../../engine/tree/index.ts';
import { SAMPLE } from './sample-tree.ts';

const FILE = '../../trees/schemas/tree-front-matter.schema.json';

it('is shipped as the reader has it', async () => {
  expect(existsSync(new URL(FILE, import.meta.url))).toBe(true);
  // Written anew by `vitest run -u`.
  await expect(`${JSON.stringify(frontMatterJsonSchema(), undefined, 2)}\n`).toMatchFileSnapshot(FILE);
});

it('takes the front matter of a tree as any reader of YAML sees it, and no other', () => {
  const schema = z.fromJSONSchema(frontMatterJsonSchema() as z.core.JSONSchema.JSONSchema);
  const front = parse(SAMPLE.split('---\n')[1] ?? '') as Record<string, unknown>;
  expect(schema.safeParse(front).success).toBe(true);
  expect(schema.safeParse({ ...front, complant: 'x' }).success).toBe(false);
  expect(schema.safeParse({ ...front, facts: { fuel: { choices: ['gas'], ask: 'x', usual: 'gas' } } }).success).toBe(false);
  expect(schema.safeParse({ ...front, title: undefined }).success).toBe(false);
});
