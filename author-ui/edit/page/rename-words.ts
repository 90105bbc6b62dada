import type { RenameProblem } from '../rename-step.ts';

/** Why a step cannot be renamed so. */
export function renameProblemWords(problem: RenameProblem): string {
  switch (problem.code) {
    case 'no-title':
      return 'A step needs a title.';
    case 'no-id':
      return 'It needs a letter or a digit.';
    case 'taken':
      return `There is a step “${problem.title}” already. Choose other words.`;
  }
}
