import { TreeFolder } from '../../engine/cli/tree-folder.ts';
import { type DrillGround, type DrillTask, drillGround } from '../../engine/review/index.ts';
import { buildEdition, type WalkableEdition, walkableEdition } from '../../engine/walk/index.ts';

const folder = new TreeFolder(new URL('../../trees', import.meta.url).pathname);
const made = new Map<string, WalkableEdition>();

/** A shipped tree, ready to walk. */
export function shippedEdition(tree: string): WalkableEdition {
  const known = made.get(tree);
  if (known) return known;
  const built = buildEdition(tree, folder.sources(tree));
  if (!built.ok) throw new Error(JSON.stringify(built.problem));
  const edition = walkableEdition(built.value);
  made.set(tree, edition);
  return edition;
}

export function taskOn(tree: string, bench: string, more: Partial<DrillTask> = {}): DrillTask {
  return { id: 'drill-1', edition: shippedEdition(tree).hash, tree, bench, facts: {}, order: 'free', ...more };
}

/** A drill on a shipped tree, ready to begin. */
export function groundOn(tree: string, bench: string, more: Partial<DrillTask> = {}): DrillGround {
  const ground = drillGround(shippedEdition(tree), taskOn(tree, bench, more));
  if (!ground.ok) throw new Error(JSON.stringify(ground.problem));
  return ground.value;
}
