import { viewOf, type Walk, type WalkLine } from '../../engine/walk/index.ts';
import type { StoredWalk } from './field-db.ts';

/** The entry of a walk in the list of walks, after the line given. */
export function walkSummary(walk: Walk, line: WalkLine, opened: string): StoredWalk {
  const view = viewOf(walk);
  const { by, site } = walk.snapshot.context.opened;
  return {
    id: walk.id,
    edition: walk.edition.hash,
    title: walk.edition.compiled.root.title,
    opened,
    changed: line.time,
    lines: walk.length,
    phase: view.phase,
    putBack: view.putBack.length,
    ...(site !== undefined && { site }),
    ...(by !== undefined && { by }),
    ...(view.step && { step: view.step.title }),
    ...(view.finding && { finding: view.finding.title }),
    ...(view.outcome && { outcome: view.outcome }),
  };
}
