import type { Problem } from '../../engine/problem.ts';
import { handoffOf, type Step, type Tree, type Way, waysOf } from '../../engine/tree/index.ts';
import { addStep, changeStep } from './step-edits.ts';

/** A repair that cannot be the wrong one: what the button says, and what it makes of the text or of the tree. */
export type QuickFix = { readonly label: string; readonly text?: string; readonly tree?: Tree };

/** The one-click repair of a problem; undefined where only its author can know what was meant. */
export const quickFix = (problem: Problem, text: string, tree: Tree | undefined): QuickFix | undefined =>
  meantName(problem, text) ?? (tree && inTree(problem, tree));

/** Where the problem says which name was meant, that name in the place of the one that is written. */
function meantName(problem: Problem, text: string): QuickFix | undefined {
  const meant = /^Did you mean [“<]([^”>]+)[”>]\?/.exec(problem.fix)?.[1];
  const written = [...problem.message.matchAll(/[“<]#?([^”>]+)[”>]/g)].map((match) => match[1] ?? '');
  if (meant === undefined) return undefined;
  const from = offsetOf(text, problem.line, problem.column);
  const to = problem.endLine === undefined ? from : offsetOf(text, problem.endLine, problem.endColumn ?? 1);
  const piece = text.slice(from, to);
  for (const name of written) {
    const places = [...piece.matchAll(new RegExp(`(?<![\\w-])${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\w-])`, 'g'))];
    // In a link the name that leads there stands last, behind its words.
    const at = places.at(-1)?.index;
    if (at === undefined || (places.length > 1 && !piece.includes(`#${name}`))) continue;
    return {
      label: `Change to ${meant}`,
      text: `${text.slice(0, from + at)}${meant}${text.slice(from + at + name.length)}`,
    };
  }
  return undefined;
}

function offsetOf(text: string, line: number, column: number): number {
  const lines = text.split(/(?<=\n)/);
  return lines.slice(0, line - 1).reduce((sum, one) => sum + one.length, 0) + column - 1;
}

function inTree(problem: Problem, tree: Tree): QuickFix | undefined {
  const step = tree.steps.find(({ id }) => id === problem.step);
  const handoff = handoffOf(tree);
  const handoffTitle = tree.steps.find(({ id }) => id === handoff)?.title;
  const toHandoff = (on: string, before?: string): QuickFix | undefined => {
    if (!step || handoff === undefined || waysOf(step).some((way) => way.on === on)) return undefined;
    const way: Way = { on, to: { step: handoff } };
    return { label: `Add “${on}”, to ${handoffTitle}`, tree: changeStep(tree, step.id, (one) => withWay(one, way, before)) };
  };
  switch (problem.code) {
    case 'no-caution':
      return step && { label: 'Add a caution to this step', tree: changeStep(tree, step.id, withCaution) };
    case 'band-gap':
      return toHandoff('otherwise');
    case 'way-on-missing': {
      if (step?.kind === 'reading') return toHandoff('open', 'otherwise');
      if (step?.kind === 'ask') {
        const fact = tree.facts[step.fact];
        const choice = fact && 'choices' in fact ? fact.choices.find((one) => problem.message.includes(`“${one}”`)) : undefined;
        return choice === undefined ? undefined : toHandoff(choice);
      }
      return handoff === undefined ? { label: 'Add a handoff', tree: addStep(tree, 'handoff', undefined).tree } : undefined;
    }
    default:
      return undefined;
  }
}

function withWay(step: Step, way: Way, before: string | undefined): Step {
  if (!('ways' in step)) return step;
  const at = step.ways.findIndex(({ on }) => on === before);
  return { ...step, ways: at === -1 ? [...step.ways, way] : step.ways.toSpliced(at, 0, way) };
}

const withCaution = (step: Step): Step => ({
  ...step,
  cautions: [
    ...step.cautions,
    {
      signal: 'caution',
      about: 'control-circuit',
      prose: [{ type: 'paragraph', children: [{ type: 'text', value: "Work to local code, the maker's instructions and your license." }] }],
    },
  ],
});
