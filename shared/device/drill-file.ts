import { z } from 'zod';
import { failure, type Result, success } from '../../engine/result.ts';
import { type DrillTask, drillTaskSchema } from '../../engine/review/index.ts';
import { type Edition, editionHash, readEdition } from '../../engine/walk/index.ts';

/** A drill to hand over where there is no hub: the task with the edition that it is done on. */
const drillFileSchema = z.strictObject({
  format: z.literal('ohmward-drill/1'),
  task: drillTaskSchema,
  by: z.string().max(200).optional(),
  edition: z.unknown(),
});

export type DrillFile = { readonly task: DrillTask; readonly by?: string | undefined; readonly edition: Edition };

export type DrillFileProblem =
  | { readonly code: 'not-json' }
  | { readonly code: 'not-a-drill'; readonly detail: string }
  | { readonly code: 'not-an-edition'; readonly detail: string }
  /** The edition in the file is not the one that the task names. */
  | { readonly code: 'other-edition' };

export function readDrillFile(text: string): Result<DrillFile, DrillFileProblem> {
  let input: unknown;
  try {
    input = JSON.parse(text);
  } catch {
    return failure({ code: 'not-json' });
  }
  const parsed = drillFileSchema.safeParse(input);
  if (!parsed.success) return failure({ code: 'not-a-drill', detail: parsed.error.issues[0]?.path.join('.') || 'file' });
  const { task, by, edition } = parsed.data;
  const read = readEdition(edition);
  if (!read.ok) return failure({ code: 'not-an-edition', detail: read.problem.code });
  if (editionHash(read.value) !== task.edition) return failure({ code: 'other-edition' });
  return success({ task, edition: read.value, by });
}

export const drillFileText = (task: DrillTask, edition: Edition, by?: string): string =>
  `${JSON.stringify({ format: 'ohmward-drill/1', task, ...(by && { by }), edition })}\n`;

export const drillFileName = (task: DrillTask): string => `${task.id}.ohmward-drill.json`;

export function drillFileWords(problem: DrillFileProblem): string {
  switch (problem.code) {
    case 'not-json':
      return 'The file is not a drill: it is no JSON. Choose one that ends in .ohmward-drill.json.';
    case 'not-a-drill':
      return `The file is not a drill (${problem.detail}). Choose one that ends in .ohmward-drill.json.`;
    case 'not-an-edition':
      return `The tree in the file cannot be walked (${problem.detail}). Have the drill made again.`;
    case 'other-edition':
      return 'The tree in the file is not the one that the drill was made for: it was changed. Have the drill made again.';
  }
}
