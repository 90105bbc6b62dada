import { failure, type Result, success } from '../../../engine/result.ts';
import type { EditionEntry, FetchProblem, Sources } from '../../data/fetch-sources.ts';
import { sourcesOf } from '../sources-of.ts';

/** Where the folder cannot be read now, what the browser keeps of it stands for it; where it keeps nothing, there is nothing to show yet. */
export function folderSources(
  texts: ReadonlyMap<string, string> | undefined,
  keepsAny: boolean,
  editions: readonly EditionEntry[],
): Result<Sources, FetchProblem> {
  if (!texts && keepsAny) return failure({ code: 'no-answer', path: 'the folder' });
  return success(sourcesOf(new Map([...(texts ?? [])].map(([path, text]) => [path, { path, text, changedAt: 0 }])), editions));
}
