export { type Band, bandEdges, bandInterval, bandProblem, checkedBand, type Interval, readBand, showBand } from './band.ts';
export { type PartitionProblem, partitionProblems, type ReadingRange } from './band-partition.ts';
export { compute, type Environment, evaluate, holds } from './evaluate.ts';
export { corners, type FactBox, type FactPoint, type FactRange, factPoints } from './fact-box.ts';
export type { ComputeProblem, Condition, Formula, FormulaProblem, Span, StateNames } from './formula.ts';
export type { FormulaFunction, FormulaParameter, FunctionTable } from './formula-function.ts';
export { readCondition, readFormula } from './formula-reader.ts';
export { conditionProblem, dimensionOf, type FormulaScope, isUnitless, signature } from './formula-type.ts';
export { showCondition, showFormula } from './show-formula.ts';
