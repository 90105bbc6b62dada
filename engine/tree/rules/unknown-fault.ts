import { benchNamesRule } from './bench-names-rule.ts';

/** The faults that a Finding names are faults of a bench of the tree. */
export const unknownFault = benchNamesRule('unknown-fault', (step) =>
  step.kind === 'finding' ? step.faults.map((name) => ({ attribute: 'faults', name, on: 'faults' })) : [],
);
