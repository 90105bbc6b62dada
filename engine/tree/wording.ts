import type { Problem } from '../problem.ts';
import { PROBLEM_CODES, type ProblemCode } from './problem-codes.ts';
import type { ProblemData, TreeProblem } from './tree-problem.ts';
import { FORM_WORDING } from './wording/form-wording.ts';
import { PROOF_WORDING } from './wording/proof-wording.ts';
import { SAFETY_WORDING } from './wording/safety-wording.ts';
import { TYPES_WORDING } from './wording/types-wording.ts';
import { WAYS_ON_WORDING } from './wording/ways-on-wording.ts';
import type { Words } from './wording/words.ts';

type Wording = { readonly [C in ProblemCode]: (data: Extract<ProblemData, { code: C }>) => Words };

const WORDING: Wording = { ...FORM_WORDING, ...WAYS_ON_WORDING, ...TYPES_WORDING, ...SAFETY_WORDING, ...PROOF_WORDING };

function wordsOf<C extends ProblemCode>(data: Extract<ProblemData, { code: C }> & { readonly code: C }): Words {
  return WORDING[data.code](data);
}

/** A problem in words. */
export function worded(problem: TreeProblem, file: string): Problem {
  const { place, step, path, code } = problem;
  return {
    severity: PROBLEM_CODES[code].severity,
    code,
    ...wordsOf(problem),
    file,
    ...place,
    ...(step !== undefined && { step }),
    ...(path && { path }),
  };
}
