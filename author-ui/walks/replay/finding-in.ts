import type { Edition } from '../../../engine/walk/index.ts';
import type { Frame } from './replay-frame.ts';

/** The finding that was accepted last, else the one that the walk stands at; undefined where there is none. */
export function findingIn(
  frames: readonly Frame[],
  edition: Pick<Edition, 'trees'>,
): { readonly title: string; readonly faults: readonly string[] } | undefined {
  const at = frames.findLast(({ event }) => event.type === 'found') ?? frames.at(-1);
  const step = at && edition.trees[at.tree]?.steps.find(({ id }) => id === at.step?.id);
  return step?.kind === 'finding' ? { title: step.title, faults: step.faults } : undefined;
}
