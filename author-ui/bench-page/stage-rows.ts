import { z } from 'zod';

/** One way of a sequence: from a stage to another when a condition holds; a stage that leads nowhere has a row without `to`. */
export type StageRow = { readonly stage: string; readonly to: string; readonly when: string };

const rowsSchema = z.array(z.object({ stage: z.string(), to: z.string(), when: z.string() }));
const stagesSchema = z.record(z.string(), z.record(z.string(), z.string()));

/** The rows of a bench file's `stages`, as the text of a form's field. */
export function stagesText(stages: unknown): string {
  const read = stagesSchema.safeParse(stages);
  if (!read.success) return '';
  return writeStageRows(
    Object.entries(read.data).flatMap(([stage, ways]): readonly StageRow[] => {
      const rows = Object.entries(ways).map(([to, when]) => ({ stage, to, when }));
      return rows.length > 0 ? rows : [{ stage, to: '', when: '' }];
    }),
  );
}

export function readStageRows(text: string): readonly StageRow[] {
  if (text === '') return [];
  const read = rowsSchema.safeParse(JSON.parse(text));
  return read.success ? read.data : [];
}

/** Empty where no row says anything, so that an empty form reads as one. */
export const writeStageRows = (rows: readonly StageRow[]): string => {
  const said = rows.map(({ stage, to, when }) => ({ stage: stage.trim(), to: to.trim(), when: when.trim() })).filter(({ stage }) => stage !== '');
  return said.length === 0 ? '' : JSON.stringify(said);
};

/** A bench file's `stages` of a form's text. */
export function stagesOf(text: string): Readonly<Record<string, Readonly<Record<string, string>>>> {
  const stages: Record<string, Record<string, string>> = {};
  for (const { stage, to, when } of readStageRows(text)) {
    const ways = stages[stage] ?? {};
    if (to !== '') ways[to] = when;
    stages[stage] = ways;
  }
  // A stage that is only led to is one too.
  for (const { to } of readStageRows(text)) if (to !== '') stages[to] ??= {};
  return stages;
}
