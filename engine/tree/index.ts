export type { Place, Problem, Severity } from '../problem.ts';
export { ACTION_FORMS, jumperKey, readAction, showAction, showHold } from './action-text.ts';
export { didYouMean } from './did-you-mean.ts';
export { factUnit } from './fact-unit.ts';
export { cannotOf, handoffOf } from './handoff-of.ts';
export { PROBLEM_CODE_NAMES, PROBLEM_CODES, type ProblemCode, type ProblemGroup } from './problem-codes.ts';
export type { Block, Inline, ListItem, Prose } from './prose.ts';
export { FIGURE, LINK, proseSchema } from './prose.ts';
export { type ReadTree, type ReadTreeOptions, readTree, treeNameOf } from './read-tree.ts';
export { frontMatterJsonSchema } from './reader/front-matter-schema.ts';
export { readRecheck, showRecheck } from './recheck-text.ts';
export { anchorOf, stepId } from './step-id.ts';
export { type BenchNames, NO_SURROUNDINGS, type Surroundings, type TreeNames } from './surroundings.ts';
export {
  type Action,
  type ActStep,
  type AskStep,
  CAUTION_SUBJECTS,
  type Caution,
  type CautionSubject,
  type ChoiceFact,
  type Computed,
  type FactSpec,
  type FindingStep,
  type HandoffStep,
  isChoice,
  type LookStep,
  type QuantityFact,
  type ReadingStep,
  type SettingHold,
  SIGNALS,
  type Signal,
  type Step,
  type StepKind,
  slugSchema,
  type Target,
  type Tree,
  terminalSchema,
  treeSchema,
  type Way,
  waysOf,
} from './tree.ts';
export { attributePlace, keyPlace, type LinkPlace, type StepPlaces, type TreePlaces, type WayPlaces } from './tree-places.ts';
export type { TreeProblem } from './tree-problem.ts';
export { worded } from './wording.ts';
export { type TreeParts, writeTree, writeTreeParts } from './write-tree.ts';
export { editFrontMatter } from './writer/edit-front-matter.ts';
export { writeProse } from './writer/write-prose.ts';
