import type { HubCode } from './wire/problem-wire.ts';

/** Why a question to the hub has no good answer. */
export type HubProblem =
  /** The hub could not be reached, or the connection broke: whether it took what was sent is not known, and sending it again does no harm. */
  | { readonly code: 'no-signal' }
  /** The time for one answer ran out; as with no signal. */
  | { readonly code: 'too-slow' }
  /** Something answered that is not the hub, such as a sign-in page of a network. */
  | { readonly code: 'answer-not-understood'; readonly status: number }
  /** The hub refused. `after`: milliseconds it asks to wait. `body`: the whole answer, for what a code brings along. */
  | { readonly code: HubCode; readonly status: number; readonly error: string; readonly after?: number; readonly body: unknown };

/** Worth trying again by itself: nothing in what was asked has to change first. */
const PASSING: ReadonlySet<HubProblem['code']> = new Set([
  'no-signal',
  'too-slow',
  'answer-not-understood',
  'slow-down',
  'hub-busy',
  'hub-troubled',
  'no-hub',
]);

export const passesByItself = (problem: HubProblem): boolean => PASSING.has(problem.code);

/** The device is not, or no longer, in the crew: everything stays here until it joins again. */
const OUTSIDE: ReadonlySet<HubProblem['code']> = new Set(['not-joined', 'device-stopped', 'person-stopped']);

export const isOutside = (problem: HubProblem): boolean => OUTSIDE.has(problem.code);

/** Nothing else can be had of the hub now either: a pass over many things ends with it. An answer that is not understood is that one thing's own. */
export const endsThePass = (problem: HubProblem): boolean =>
  isOutside(problem) || (passesByItself(problem) && problem.code !== 'answer-not-understood');
