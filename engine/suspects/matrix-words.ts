import type { MatrixProblem } from './read-matrix.ts';

/** What is wrong with a matrix file, and the way out, in words. */
export function matrixWords(problem: MatrixProblem): { readonly message: string; readonly fix: string } {
  switch (problem.code) {
    case 'no-header':
      return { message: `Line ${problem.line} is no head of a matrix.`, fix: 'Begin with state,prior and the name of each test: state,prior,t1,t2' };
    case 'no-cost-row':
      return { message: 'What the tests cost is missing.', fix: 'Add a row #cost,,1,1,… with the minutes of each test.' };
    case 'no-states':
      return { message: 'There are no states.', fix: 'Add a row for each: its name, its prior, and what each test shows in it.' };
    case 'too-big':
      return {
        message: `There are ${problem.count} ${problem.what}; ${problem.most} is the most.`,
        fix: 'Split the matrix, or leave out what tells nothing.',
      };
    case 'row-length':
      return {
        message: `Line ${problem.line} has ${problem.cells} cells; the head has ${problem.wants}.`,
        fix: 'Give every test its cell, and none more.',
      };
    case 'twice':
      return { message: `Line ${problem.line}: the ${problem.what} ${problem.name} is there twice.`, fix: 'Give each its own name.' };
    case 'not-a-number':
      return {
        message: `Line ${problem.line}, column ${problem.column}: “${problem.text}” is no ${problem.what === 'prior' ? 'prior' : 'number of minutes'}.`,
        fix: 'Write a number that is 0 or more, with a point for decimals.',
      };
    case 'no-prior':
      return { message: `The priors add up to ${problem.sum}.`, fix: 'Give at least one state a prior above 0.' };
    case 'unknown-row':
      return { message: `Line ${problem.line}: there is no row ${problem.name}.`, fix: 'Rows with a mark are #cost, #wants and #switch.' };
    case 'unknown-set-up':
      return {
        message: `Line ${problem.line}: no #switch row names the set-up ${problem.name}.`,
        fix: problem.known.length === 0 ? 'Add rows #switch,FROM,TO,MINUTES.' : `Use one of: ${problem.known.join(', ')}.`,
      };
    case 'no-switch':
      return {
        message: `What it takes to go from ${problem.from} to ${problem.to} is missing.`,
        fix: `Add a row #switch,${problem.from},${problem.to},MINUTES.`,
      };
  }
}
