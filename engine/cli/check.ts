import { existsSync, statSync } from 'node:fs';
import type { Problem } from '../problem.ts';
import { proveSafety, safetyProblems } from '../proof/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { buildEdition, compileEdition } from '../walk/index.ts';
import { folderOf, isBenchFile, isTreeFile, readBenchFile, TreeFolder, treeName } from './tree-folder.ts';

export type CheckReport = { readonly ok: boolean; readonly problems: readonly Problem[] };

const atStart = (file: string, code: string, message: string, fix: string): Problem => ({
  severity: 'error',
  code,
  message,
  file,
  line: 1,
  column: 1,
  fix,
});

/** Checks tree and bench files, each with what stands beside it. A file that cannot be read is a problem, not an exception. */
export function checkFiles(files: readonly string[]): CheckReport {
  const folders = new Map<string, TreeFolder>();
  const problems = files.flatMap((file) => {
    try {
      return checkFile(file, folders);
    } catch (error) {
      return [
        atStart(
          file,
          'not-readable',
          `This file cannot be read: ${error instanceof Error ? error.message : String(error)}`,
          'Check its name and permissions.',
        ),
      ];
    }
  });
  return { ok: !problems.some((p) => p.severity === 'error'), problems };
}

function checkFile(file: string, folders: Map<string, TreeFolder>): readonly Problem[] {
  if (!existsSync(file)) return [atStart(file, 'not-readable', 'There is no such file.', 'Check the name and the folder.')];
  if (!statSync(file).isFile()) return [atStart(file, 'not-readable', 'This is not a file.', 'Name a .tree.mdx or .bench.yaml file.')];
  if (isBenchFile(file)) return readBenchFile(file).problems;
  if (!isTreeFile(file))
    return [atStart(file, 'not-readable', 'This is neither a tree nor a bench.', 'Name a file that ends in .tree.mdx or .bench.yaml.')];
  const folder = folders.get(folderOf(file)) ?? new TreeFolder(folderOf(file));
  folders.set(folderOf(file), folder);
  return treeProblems(folder, treeName(file));
}

/** Everything that `check` says of one tree of a folder: its text, and its paths once the text is right. */
export function treeProblems(folder: TreeFolder, name: string): readonly Problem[] {
  const problems = folder.tree(name)?.problems ?? [];
  return problems.some((p) => p.severity === 'error') ? problems : [...problems, ...pathProblems(folder, name)];
}

/** What the safety rules find on the paths of a tree whose own text is right; told in this tree's file only. */
function pathProblems(folder: TreeFolder, name: string): readonly Problem[] {
  const sources = folder.sources(name);
  const edition = buildEdition(name, sources);
  if (!edition.ok) return [];
  const { findings } = proveSafety(compileEdition(edition.value, TRADE_FUNCTIONS));
  const places = folder.tree(name)?.places;
  return places ? safetyProblems(findings, { [name]: places }) : [];
}

/** Problems as lines for people: place, code, what, and the way out below. */
export function problemLines(problems: readonly Problem[]): string {
  return problems
    .map(({ severity, code, message, file, line, column, step, fix, path }) => {
      const where = `${file}:${line}:${column}`;
      const at = step === undefined ? '' : ` [${step}]`;
      const way = path === undefined || path.length === 0 ? '' : `\n    shown by: ${path.join(' → ')}`;
      return `${where} ${severity} ${code}${at}\n    ${message}${way}\n    ${fix}`;
    })
    .join('\n');
}
