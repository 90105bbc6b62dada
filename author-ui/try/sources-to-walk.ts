import type { Sources } from '../data/fetch-sources.ts';
import type { DeskFile } from '../store/desk-file.ts';
import { sourcesOf } from '../store/sources-of.ts';

/** The desk's files for a worker that walks them: of the pictures only that they are there. */
export function sourcesToWalk(files: ReadonlyMap<string, DeskFile>): Sources {
  const sources = sourcesOf(files, []);
  return { ...sources, figures: Object.fromEntries(Object.keys(sources.figures).map((path) => [path, 'data:image/png;base64,AA=='])) };
}
