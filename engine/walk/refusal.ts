import type { FormulaProblem } from '../formula/index.ts';
import type { TypedValueProblem } from '../quantity/index.ts';
import type { SettingHold } from '../tree/index.ts';
import type { SafetyConcern } from './safety-model.ts';
import type { PutBackItem } from './walk-view.ts';

/** Why the walk did not take an event. Data: `wording.ts` has the words. */
export type Refusal =
  | { readonly code: 'not-now'; readonly event: string; readonly phase: string; readonly expects: readonly string[] }
  | { readonly code: 'cautions-first'; readonly left: number }
  | { readonly code: 'not-readable'; readonly problem: TypedValueProblem }
  | { readonly code: 'no-such-way'; readonly got: string; readonly known: readonly string[] }
  | { readonly code: 'no-band'; readonly typed: string }
  | { readonly code: 'band-not-computable'; readonly on: string; readonly problem: FormulaProblem }
  | { readonly code: 'setting-not-held'; readonly holds: readonly SettingHold[] }
  | { readonly code: 'still-in-place'; readonly items: readonly PutBackItem[] }
  | { readonly code: 'not-in-place'; readonly item: string }
  | { readonly code: 'unknown-fact'; readonly fact: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-choice'; readonly fact: string; readonly got: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-step'; readonly step: string }
  | { readonly code: 'not-an-act'; readonly text: string }
  | { readonly code: 'no-recheck' }
  | { readonly code: 'not-rechecked' }
  | { readonly code: 'unsafe'; readonly concern: SafetyConcern }
  | { readonly code: 'paused' }
  | { readonly code: 'closed' }
  | { readonly code: 'not-opened' }
  | { readonly code: 'not-an-event'; readonly detail: string };
