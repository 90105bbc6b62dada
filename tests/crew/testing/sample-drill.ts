import { fileURLToPath } from 'node:url';
import { TreeFolder } from '../../../engine/cli/tree-folder.ts';
import { buildEdition, editionHash } from '../../../engine/walk/index.ts';

const TREE = 'no-water-at-the-pad';

const built = buildEdition(TREE, new TreeFolder(fileURLToPath(new URL('../../../trees', import.meta.url))).sources(TREE));
if (!built.ok) throw new Error(JSON.stringify(built.problem));

/** A shipped tree with a bench to hide a fault in. */
export const DRILL_EDITION = built.value;
export const DRILL_HASH = editionHash(DRILL_EDITION);

const bench = DRILL_EDITION.trees[TREE]?.benches[0] ?? '';
const fault = Object.keys(DRILL_EDITION.benches[bench]?.faults ?? {})[0] ?? '';

/** A drill on it, as a trainer sets it. */
export const DRILL_TASK = { edition: DRILL_HASH, tree: TREE, bench, fault, order: 'free' as const, note: 'Mind the fuse.' };
