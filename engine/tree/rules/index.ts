import type { TreeDraft } from '../tree-draft.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { badBand } from './bad-band.ts';
import { badFormula } from './bad-formula.ts';
import { bandGap } from './band-gap.ts';
import { bandOverlap } from './band-overlap.ts';
import { deadEnd } from './dead-end.ts';
import { duplicateStep } from './duplicate-step.ts';
import { endlessLoop } from './endless-loop.ts';
import { factRange } from './fact-range.ts';
import { handoffKind } from './handoff-kind.ts';
import { missingTarget } from './missing-target.ts';
import { noCaution } from './no-caution.ts';
import { noRecheck } from './no-recheck.ts';
import { noStart } from './no-start.ts';
import { readingShape } from './reading-shape.ts';
import { repairMissing } from './repair-missing.ts';
import { type RuleInput, ruleInput } from './rule-input.ts';
import { settingNotHeld } from './setting-not-held.ts';
import { unitMismatch } from './unit-mismatch.ts';
import { unknownBench } from './unknown-bench.ts';
import { unknownFact } from './unknown-fact.ts';
import { unknownFault } from './unknown-fault.ts';
import { unknownSetting } from './unknown-setting.ts';
import { unknownSign } from './unknown-sign.ts';
import { unknownTerminal } from './unknown-terminal.ts';
import { unreachableStep } from './unreachable-step.ts';
import { wayFitsStep } from './way-fits-step.ts';
import { wayOnMissing } from './way-on-missing.ts';

/** Every check of a tree by itself, in the order they run. */
const RULES: readonly ((input: RuleInput) => readonly TreeProblem[])[] = [
  noStart,
  duplicateStep,
  factRange,
  handoffKind,
  readingShape,
  wayFitsStep,
  missingTarget,
  unreachableStep,
  deadEnd,
  endlessLoop,
  wayOnMissing,
  badBand,
  badFormula,
  bandGap,
  bandOverlap,
  repairMissing,
  unitMismatch,
  unknownBench,
  unknownFact,
  unknownTerminal,
  unknownSetting,
  unknownSign,
  unknownFault,
  settingNotHeld,
  noCaution,
  noRecheck,
];

/** Everything that the rules find wrong with a file, as far as it could be read. */
export function ruleProblems(draft: TreeDraft): readonly TreeProblem[] {
  const input = ruleInput(draft);
  return RULES.flatMap((rule) => rule(input));
}
