import type { Step } from '../tree.ts';
import { type BenchName, benchNamesRule } from './bench-names-rule.ts';

function namesOf(step: Step): readonly BenchName[] {
  if (step.kind === 'reading') {
    const points = (step.across ?? []).map((name): BenchName => ({ attribute: 'across', name, on: 'points' }));
    return step.at === undefined ? points : [...points, { attribute: 'at', name: step.at, on: 'places' }];
  }
  if (step.kind !== 'act') return [];
  return step.does.flatMap((action): readonly BenchName[] => {
    if (action.do === 'jumper' || action.do === 'remove-jumper')
      return [action.from, action.to].map((name) => ({ attribute: 'does', name, on: 'points' }));
    return action.do === 'lift' || action.do === 'land' ? [{ attribute: 'does', name: action.lead, on: 'leads' }] : [];
  });
}

/** Points that leads touch and jumpers join, leads that are lifted, and places of readings are on some bench of the tree. */
export const unknownTerminal = benchNamesRule('unknown-terminal', namesOf);
