import type { ComputeProblem } from '../formula/index.ts';
import type { Place } from '../problem.ts';
import type { QuantityKindName } from '../quantity/index.ts';
import type { CautionSubject, Signal, StepKind } from './tree.ts';

/** What a value must be, for `bad-attribute`; the words are in the wording. */
export type Expected =
  | { readonly form: 'text' | 'name' | 'points' | 'holds' | 'minutes' | 'actions' | 'faults' | 'formula' | 'quoted-text' }
  | { readonly form: 'one-of'; readonly known: readonly string[]; readonly suggestion?: string | undefined }
  | { readonly form: 'map' | 'list-of-names' | 'states' | 'choices' | 'meter' | 'recheck' | 'file-name' }
  | { readonly form: 'quantity'; readonly kind: QuantityKindName }
  | { readonly form: 'fact' | 'usual-in-range' | 'usual-choice' | 'range-in-order' | 'handoff-step' }
  | { readonly form: 'only-on-voltage' | 'low-band-within-5-volts' | 'across-not-at' | 'at-not-across' };

export type BandFault =
  | { readonly why: 'cannot-read'; readonly found: string; readonly expected: string }
  | { readonly why: 'unit-not-known'; readonly found: string }
  | { readonly why: 'unknown-function'; readonly name: string; readonly suggestion?: string | undefined }
  | { readonly why: 'wrong-arguments'; readonly name: string; readonly expected: string }
  | { readonly why: 'never-open'; readonly takes: QuantityKindName }
  | { readonly why: 'not-computable'; readonly what: ComputeProblem; readonly facts: FactsShown }
  | { readonly why: 'empty'; readonly low: string; readonly high: string; readonly facts: FactsShown };

/** What is wrong with the formula of a computed number. */
export type FormulaFault =
  | Exclude<BandFault, { readonly why: 'never-open' | 'empty' }>
  | { readonly why: 'arithmetic'; readonly operator: string; readonly left: string; readonly right: string }
  | { readonly why: 'no-unit'; readonly gives: string }
  | { readonly why: 'other-unit'; readonly unit: string; readonly gives: string };

/** Facts at which something shows, as shown: `coil-rated 24 V`. Empty where it shows whatever the facts are. */
export type FactsShown = readonly string[];

/** What is wrong with a tree file, as data. One member a code; the words are in the wording. */
export type ProblemData =
  // Form.
  | { readonly code: 'not-readable'; readonly what: 'too-large'; readonly size: number; readonly most: number }
  | { readonly code: 'not-readable'; readonly what: 'characters'; readonly count: number; readonly shown: string }
  | {
      readonly code: 'not-readable';
      readonly what: 'nested' | 'tangled' | 'block-too-long' | 'no-front-matter' | 'front-matter-open' | 'front-matter-list';
    }
  | { readonly code: 'not-readable'; readonly what: 'front-matter'; readonly detail: FrontMatterFault }
  | { readonly code: 'not-readable'; readonly what: 'tag'; readonly text: string }
  | { readonly code: 'not-readable'; readonly what: 'not-closed' | 'stray-closing'; readonly name: string }
  | { readonly code: 'not-readable'; readonly what: 'closed-by-other'; readonly name: string; readonly found: string }
  | { readonly code: 'unknown-component'; readonly name: string; readonly suggestion?: string | undefined }
  | { readonly code: 'misplaced-component'; readonly name: string; readonly why: MisplacedWhy }
  | {
      readonly code: 'unknown-attribute';
      readonly owner: string;
      readonly name: string;
      readonly known: readonly string[];
      readonly suggestion?: string | undefined;
    }
  | { readonly code: 'bad-attribute'; readonly owner: string; readonly name: string; readonly fault: 'missing'; readonly expected?: Expected }
  | { readonly code: 'bad-attribute'; readonly owner: string; readonly name: string; readonly fault: 'twice' }
  | {
      readonly code: 'bad-attribute';
      readonly owner: string;
      readonly name: string;
      readonly fault: 'wrong';
      readonly got: string;
      readonly expected: Expected;
    }
  | {
      readonly code: 'code-in-prose';
      readonly what: 'expression' | 'brace' | 'angle' | 'comment' | 'import' | 'script' | 'spread' | 'attribute';
      readonly text: string;
    }
  | { readonly code: 'not-kept'; readonly what: NotKept; readonly text: string }
  | { readonly code: 'comment-not-kept'; readonly what: 'front-matter' | 'code-language'; readonly text: string }
  | { readonly code: 'bad-heading'; readonly why: 'empty' | 'not-plain' | 'no-id' | 'level-1' | 'level-5' | 'inside'; readonly title: string }
  | { readonly code: 'no-task'; readonly title: string }
  | { readonly code: 'bad-way'; readonly why: BadWayWhy; readonly text: string }
  | {
      readonly code: 'bad-way';
      readonly why: 'not-for-kind';
      readonly text: string;
      readonly kind: StepKind;
      readonly known: readonly string[];
      readonly suggestion?: string | undefined;
    }
  | { readonly code: 'duplicate-step'; readonly id: string; readonly title: string; readonly firstLine: number }
  | { readonly code: 'no-start' }
  // Ways on.
  | {
      readonly code: 'missing-target';
      readonly what: 'step' | 'tree' | 'step-of-tree' | 'figure' | 'handoff';
      readonly name: string;
      readonly tree?: string | undefined;
      readonly suggestion?: string | undefined;
    }
  | { readonly code: 'unreachable-step'; readonly title: string }
  | { readonly code: 'dead-end'; readonly title: string; readonly kind: StepKind }
  | { readonly code: 'endless-loop'; readonly titles: readonly string[] }
  | { readonly code: 'band-gap'; readonly from?: string | undefined; readonly to?: string | undefined; readonly facts: FactsShown }
  | {
      readonly code: 'band-overlap';
      readonly from?: string | undefined;
      readonly to?: string | undefined;
      readonly bands: readonly [string, string];
      readonly facts: FactsShown;
    }
  | { readonly code: 'band-overlap'; readonly repeated: string }
  | { readonly code: 'way-on-missing'; readonly why: 'act-done' | 'look-labels' | 'reading-open' | 'no-handoff'; readonly title: string }
  | { readonly code: 'way-on-missing'; readonly why: 'ask-choice'; readonly title: string; readonly fact: string; readonly choice: string }
  | { readonly code: 'repair-missing'; readonly title: string }
  // Types.
  | ({ readonly code: 'bad-band'; readonly band: string } & BandFault)
  | ({ readonly code: 'bad-formula'; readonly shows: string } & FormulaFault)
  | {
      readonly code: 'unit-mismatch';
      readonly what: 'band';
      readonly band: string;
      readonly wants: string;
      readonly got: string;
      readonly unitless: boolean;
      readonly example: string;
    }
  | {
      readonly code: 'unit-mismatch';
      readonly what: 'arithmetic';
      readonly band: string;
      readonly operator: string;
      readonly left: string;
      readonly right: string;
    }
  | { readonly code: 'unit-mismatch'; readonly what: 'unit'; readonly unit: string; readonly takes: QuantityKindName; readonly example: string }
  | { readonly code: 'unit-mismatch'; readonly what: 'sets' | 'bench-fact'; readonly fact: string; readonly wants: string; readonly got: string }
  | {
      readonly code: 'unit-mismatch';
      readonly what: 'fact-value';
      readonly fact: string;
      readonly key: string;
      readonly text: string;
      readonly kind: QuantityKindName;
      readonly example: string;
    }
  | UnknownName<'unknown-fact'>
  | UnknownName<'unknown-terminal'>
  | UnknownName<'unknown-setting'>
  | UnknownName<'unknown-sign'>
  | UnknownName<'unknown-fault'>
  | UnknownName<'unknown-bench'>
  | { readonly code: 'setting-not-held'; readonly setting: string; readonly wants: string; readonly is: string; readonly title: string }
  // Safety.
  | { readonly code: 'no-caution'; readonly title: string }
  | { readonly code: 'no-recheck'; readonly why: 'not-named' }
  | {
      readonly code: 'no-recheck';
      readonly why: 'no-such-step' | 'no-such-way' | 'an-end';
      readonly text: string;
      readonly suggestion?: string | undefined;
    }
  | {
      readonly code: 'caution-too-mild';
      readonly title: string;
      readonly about: CautionSubject;
      readonly needs: Signal;
      readonly has?: Signal | undefined;
    }
  | { readonly code: 'resistance-while-live'; readonly title: string; readonly points: readonly string[]; readonly source: string }
  | { readonly code: 'touched-while-live'; readonly title: string; readonly action: string; readonly point: string; readonly source: string }
  | NotProvedDead
  | { readonly code: 'meter-not-proved'; readonly title: string; readonly when: 'before' | 'after' }
  | { readonly code: 'left-in-place'; readonly title: string; readonly left: string; readonly why: 'some-paths' | 'unsafe-to-put-back' }
  | { readonly code: 'safety-bypassed'; readonly title: string; readonly part: string; readonly action: string }
  // Proof.
  | { readonly code: 'fault-missed'; readonly bench: string; readonly fault: string; readonly endsAt: string }
  | { readonly code: 'fault-misnamed'; readonly bench: string; readonly fault: string; readonly named: readonly string[]; readonly endsAt: string }
  | { readonly code: 'healthy-condemned'; readonly bench: string; readonly named: readonly string[]; readonly endsAt: string }
  | (Misled & { readonly code: 'too-close-to-call'; readonly band: string; readonly reads: string; readonly edge: string })
  | (Misled & { readonly code: 'fooled-by-stray-voltage'; readonly reads: string; readonly truly: string })
  | (Misled & { readonly code: 'fooled-by-parallel-path'; readonly reads: string; readonly truly: string; readonly through: string })
  | { readonly code: 'wasted-step'; readonly title: string; readonly on: string };

/** `source` is what they could be live from; `when` the fault or setting that would make them so, empty where a sound circuit does. */
type NotProvedDead = {
  readonly code: 'not-proved-dead';
  readonly title: string;
  readonly points: readonly string[];
  readonly source: string;
  readonly when: string;
};

/** The step whose reading misleads, on which bench, and with which fault; none where the circuit is sound. */
type Misled = { readonly title: string; readonly bench: string; readonly fault: string | undefined };

type UnknownName<C extends string> = {
  readonly code: C;
  readonly name: string;
  /** What the name belongs to, where one name says too little: the setting of a state. */
  readonly of?: string | undefined;
  readonly known: readonly string[];
  readonly suggestion?: string | undefined;
};

export type FrontMatterFault = 'twice' | 'tab' | 'indent' | 'not-closed' | 'other';

export type MisplacedWhy =
  | 'in-opening'
  | 'in-text'
  | 'inside-component'
  | 'in-list'
  | 'second-task'
  | 'repair-outside-finding'
  | 'next-on-end'
  | 'second-next'
  | 'second-repair';

export type NotKept =
  | 'definition'
  | 'reference'
  | 'image-outside-figures'
  | 'link-address'
  | 'link-title'
  | 'text-in-component'
  | 'too-deep'
  | 'anchor'
  | 'tag'
  | 'markup';

export type BadWayWhy =
  | 'not-a-list'
  | 'numbered'
  | 'no-link'
  | 'text-after-link'
  | 'more-than-a-line'
  | 'no-on'
  | 'not-plain'
  | 'link-form'
  | 'twice'
  | 'known-with-others';

/** One thing wrong with a tree file, before it is put into words. */
export type TreeProblem = ProblemData & { readonly place: Place; readonly step?: string | undefined; readonly path?: readonly string[] | undefined };

export type Report = (problem: TreeProblem) => void;
