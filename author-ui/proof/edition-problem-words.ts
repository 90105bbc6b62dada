import type { EditionProblem } from '../../engine/walk/index.ts';

/** Why no edition can be made of files that have no errors of their own, with the way out. */
export function editionProblemWords(problem: EditionProblem): string {
  switch (problem.code) {
    case 'tree-missing':
      return `There is no tree “${problem.tree}” on the desk. Take out the links to it, or put its file back.`;
    case 'bench-missing':
      return `“${problem.tree}” names the bench “${problem.bench}”, and the desk has none of that name that can be read. Put the bench right, or take it out of the tree.`;
    case 'figure-missing':
      return `“${problem.tree}” shows the picture ${problem.figure}, which is not on the desk. Put it back, or take it out of the text.`;
    case 'step-missing':
      return `A way leads to the step “${problem.step}” of “${problem.tree}”, and there is none. Lead it to another step.`;
    case 'band-not-readable':
      return `At “${problem.step}” of “${problem.tree}” the band “${problem.on}” cannot be read. Write it as the manual shows.`;
    case 'not-an-edition':
      return `At ${problem.where || 'the top'}: ${problem.detail}.`;
  }
}
