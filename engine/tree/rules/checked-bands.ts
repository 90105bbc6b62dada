import { type Band, bandProblem, type FormulaProblem, type PartitionProblem, partitionProblems } from '../../formula/index.ts';
import { type QuantityKind, type QuantityKindName, quantityKind } from '../../quantity/index.ts';
import type { BandNote } from '../reader/read-ways.ts';
import { isChoice, type Step } from '../tree.ts';
import type { StepNote, TreeDraft } from '../tree-draft.ts';
import { boxOf, type FactScope } from './fact-scope.ts';

export type CheckedBand = { readonly way: number; readonly note: BandNote; readonly problem?: FormulaProblem };

/** The bands of one step, checked against the facts, and how they part the range of what is read. */
export type CheckedBands = {
  readonly takes: QuantityKindName;
  readonly kind: QuantityKind;
  readonly bands: readonly CheckedBand[];
  /** Of the bands in order of `bands`; empty where some band or the step itself could not be read. */
  readonly partition: readonly PartitionProblem[];
  /** Whether some band's edge depends on a fact. */
  readonly usesFacts: boolean;
};

/** What the bands of a step are a range of: what a reading takes, or what an asked fact is. */
function bandedKind(step: Step, facts: FactScope): QuantityKindName | undefined {
  if (step.kind === 'reading') return step.takes;
  const fact = step.kind === 'ask' ? facts.specs.get(step.fact) : undefined;
  return fact && !isChoice(fact) ? fact.quantity : undefined;
}

/** Undefined where the step has no bands, or what they are a range of is not known. */
export function checkedBands(step: Step, note: StepNote, facts: FactScope, draft: TreeDraft): CheckedBands | undefined {
  const takes = bandedKind(step, facts);
  if (takes === undefined || (note.doubtfulTask && step.kind === 'reading')) return undefined;
  const kind = quantityKind(takes);
  const scope = { names: facts.dimensions, functions: draft.surroundings.functions };
  const bands = note.bands.flatMap((band, way): CheckedBand[] => {
    if (!band) return [];
    const problem = band.band.ok ? bandProblem(band.band.value, kind.dimension, scope) : band.band.problem;
    return [{ way, note: band, ...(problem && { problem }) }];
  });
  if (bands.length === 0) return undefined;
  const sound: Band[] = bands.flatMap(({ note: { band }, problem }) => (band.ok && !problem ? [band.value] : []));
  const box = boxOf(sound, facts);
  const whole = sound.length === bands.length && !note.doubtfulWays;
  // A fact is typed as a number: an asked one cannot be open, and its own lowest value is the kind's.
  const range = { floor: kind.floor, open: kind.open && step.kind === 'reading' };
  return {
    takes,
    kind,
    bands,
    partition: whole ? partitionProblems(sound, range, box, draft.surroundings.functions) : [],
    usesFacts: Object.keys(box).length > 0,
  };
}
