import { slugSchema } from '../../../engine/tree/index.ts';

/** Names written with commas between them. */
export const slugList = (text: string): string[] =>
  text
    .split(',')
    .map((one) => one.trim())
    .filter(Boolean);

/** Why a list of names cannot be taken; undefined where it can. */
export function namesProblem(names: readonly string[], least: number): string | undefined {
  if (names.some((name) => !slugSchema.safeParse(name).success)) return 'Each is small letters, digits and single hyphens.';
  if (new Set(names).size < names.length) return 'One of them stands twice.';
  return names.length < least ? `Name at least ${least}.` : undefined;
}
