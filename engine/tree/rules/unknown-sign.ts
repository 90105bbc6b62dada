import { benchNamesRule } from './bench-names-rule.ts';

/** The sign that a Look names is one of a bench of the tree. */
export const unknownSign = benchNamesRule('unknown-sign', (step) =>
  step.kind === 'look' && step.sign !== undefined ? [{ attribute: 'sign', name: step.sign, on: 'signs' }] : [],
);
