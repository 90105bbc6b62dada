import { readdirSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Folders that hold sources; what is generated or installed lies elsewhere. */
const SOURCE_FOLDERS = ['engine', 'shared', 'field-ui', 'author-ui', 'tests', '.scripts'];

/** Every file under the source folders, as paths from the top with forward slashes. */
export function sourceFiles(pattern: RegExp): string[] {
  return SOURCE_FOLDERS.flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && pattern.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name).slice(ROOT.length).split(sep).join('/')),
  ).filter((path) => !path.includes('node_modules/'));
}

/** Names at the top of the repository, less what git leaves out of it. */
export const topLevelNames = (): string[] => readdirSync(ROOT).filter((name) => name !== 'node_modules' && name !== '.git');
