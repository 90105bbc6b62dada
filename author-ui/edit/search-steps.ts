import { type Step, showAction, type Tree, waysOf } from '../../engine/tree/index.ts';
import { proseText } from '../../shared/ui/prose-text.ts';

/** Everything that a step says, for finding it: its title, what it takes, its ways on and its prose. */
function saidBy(step: Step): string {
  const task = {
    reading: () => (step.kind === 'reading' ? [step.takes, ...(step.across ?? []), step.at ?? '', step.sets ?? ''] : []),
    look: () => (step.kind === 'look' ? [step.at ?? '', step.sign ?? ''] : []),
    act: () => (step.kind === 'act' ? step.does.map(showAction) : []),
    ask: () => (step.kind === 'ask' ? [step.fact] : []),
    finding: () => (step.kind === 'finding' ? step.faults : []),
    handoff: () => (step.kind === 'handoff' ? [step.to] : []),
  }[step.kind]();
  return [step.title, step.kind, ...task, ...waysOf(step).map(({ on }) => on), proseText(step.prose)].join(' ').toLowerCase();
}

/** The steps that hold every word of a query, in document order. All of them for an empty query. */
export function searchSteps(tree: Tree, query: string): readonly Step[] {
  const words = query.toLowerCase().split(/\s+/).filter(Boolean);
  return words.length === 0 ? tree.steps : tree.steps.filter((step) => words.every((word) => saidBy(step).includes(word)));
}
