import type { Severity } from '../problem.ts';

/** Form and types are found by reading a file, ways on and safety by following its paths, proof by running it on its benches. */
export type ProblemGroup = 'form' | 'ways-on' | 'types' | 'safety' | 'proof';

export type CodeEntry = { readonly severity: Severity; readonly group: ProblemGroup };

const error = (group: ProblemGroup): CodeEntry => ({ severity: 'error', group });
const warning = (group: ProblemGroup): CodeEntry => ({ severity: 'warning', group });

/** Every code that a tree file can be reported with. Codes are stable: scripts and the manual name them. */
export const PROBLEM_CODES = {
  'not-readable': error('form'),
  'unknown-component': error('form'),
  'misplaced-component': error('form'),
  'unknown-attribute': error('form'),
  'bad-attribute': error('form'),
  'code-in-prose': error('form'),
  'not-kept': error('form'),
  'comment-not-kept': warning('form'),
  'bad-heading': error('form'),
  'no-task': error('form'),
  'bad-way': error('form'),
  'duplicate-step': error('form'),
  'no-start': error('form'),

  'missing-target': error('ways-on'),
  'unreachable-step': error('ways-on'),
  'dead-end': error('ways-on'),
  'endless-loop': error('ways-on'),
  'band-gap': error('ways-on'),
  'band-overlap': error('ways-on'),
  'way-on-missing': error('ways-on'),
  'repair-missing': warning('ways-on'),

  'bad-band': error('types'),
  'bad-formula': error('types'),
  'unit-mismatch': error('types'),
  'unknown-fact': error('types'),
  'unknown-terminal': error('types'),
  'unknown-setting': error('types'),
  'unknown-sign': error('types'),
  'unknown-fault': error('types'),
  'unknown-bench': error('types'),
  'setting-not-held': error('types'),

  'no-caution': error('safety'),
  'caution-too-mild': error('safety'),
  'resistance-while-live': error('safety'),
  'touched-while-live': error('safety'),
  'not-proved-dead': error('safety'),
  'meter-not-proved': error('safety'),
  'left-in-place': error('safety'),
  'safety-bypassed': error('safety'),
  'no-recheck': error('safety'),

  'fault-missed': error('proof'),
  'fault-misnamed': error('proof'),
  'healthy-condemned': error('proof'),
  'too-close-to-call': warning('proof'),
  'fooled-by-stray-voltage': error('proof'),
  'fooled-by-parallel-path': error('proof'),
  'wasted-step': warning('proof'),
} as const satisfies Record<string, CodeEntry>;

export type ProblemCode = keyof typeof PROBLEM_CODES;

export const PROBLEM_CODE_NAMES = Object.keys(PROBLEM_CODES) as readonly ProblemCode[];
