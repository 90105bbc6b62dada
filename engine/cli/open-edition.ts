import { failure, type Result, success } from '../result.ts';
import { buildEdition, type Edition } from '../walk/index.ts';
import { checkFiles, problemLines } from './check.ts';
import { editionFrom } from './log-file.ts';
import { folderOf, isTreeFile, TreeFolder, treeName } from './tree-folder.ts';

/** The edition of a tree file, compiled now, or of an edition file. A tree with errors is not walked. */
export function openEdition(file: string): Result<Edition, string> {
  if (!isTreeFile(file)) {
    const edition = editionFrom(file);
    return edition ? success(edition) : failure(`${file} is neither a tree (.tree.mdx) nor an edition that can be read.`);
  }
  const report = checkFiles([file]);
  if (!report.ok)
    return failure(
      `${file} has errors and cannot be walked until they are put right.\n${problemLines(report.problems.filter((p) => p.severity === 'error'))}`,
    );
  const edition = buildEdition(treeName(file), new TreeFolder(folderOf(file)).sources(treeName(file)));
  return edition.ok ? edition : failure(`No edition can be made of ${file}: ${JSON.stringify(edition.problem)}`);
}
