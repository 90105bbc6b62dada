import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

/** One file of the trees folder. `name` is what other files call it by, `path` its place under the folder. */
export type SourceFile = { readonly name: string; readonly path: string };

/** What the trees folder holds, by kind, each in order of name. */
export type TreeSources = { readonly trees: readonly SourceFile[]; readonly benches: readonly SourceFile[]; readonly figures: readonly SourceFile[] };

const KINDS = {
  trees: { folder: '', pattern: /^([a-z0-9-]+)\.tree\.mdx$/ },
  benches: { folder: 'benches', pattern: /^([a-z0-9-]+)\.bench\.yaml$/ },
  figures: { folder: 'figures', pattern: /^([a-z0-9-]+\.(?:png|jpg|svg|webp))$/ },
} as const;

async function list(treesDir: string, { folder, pattern }: (typeof KINDS)[keyof typeof KINDS]): Promise<SourceFile[]> {
  const entries = await readdir(join(treesDir, folder), { withFileTypes: true }).catch(() => []);
  const files: SourceFile[] = [];
  for (const entry of entries) {
    const name = entry.isFile() ? pattern.exec(entry.name)?.[1] : undefined;
    if (name !== undefined) files.push({ name, path: folder === '' ? entry.name : `${folder}/${entry.name}` });
  }
  return files.sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Lists the files that trees are made of. A folder that is not there has none; links and other names are passed over. */
export async function listTreeSources(treesDir: string): Promise<TreeSources> {
  const [trees, benches, figures] = await Promise.all([list(treesDir, KINDS.trees), list(treesDir, KINDS.benches), list(treesDir, KINDS.figures)]);
  return { trees, benches, figures };
}

/** Differs whenever one of the listed files has been added, removed, renamed or written. */
export async function sourcesFingerprint(treesDir: string): Promise<string> {
  const { trees, benches, figures } = await listTreeSources(treesDir);
  const marks = [...trees, ...benches, ...figures].map(async ({ path }) => {
    const found = await stat(join(treesDir, path)).catch(() => undefined);
    return `${path} ${found?.size ?? 0} ${found?.mtimeMs ?? 0}`;
  });
  return (await Promise.all(marks)).join('\n');
}
