export type { DraftProblem } from './draft/draft-problem.ts';
export { type DraftedTree, type DraftOptions, draftTree } from './draft/draft-tree.ts';
export { draftProblemWords } from './draft/draft-words.ts';
export { expectedEntropy } from './expected-entropy.ts';
export { type BestMinutes, bestMinutes } from './isolate/best-minutes.ts';
export { type BestOrder, bestOrder } from './isolate/best-order.ts';
export { type Isolation, isolateFaults } from './isolate/isolate-faults.ts';
export { type IsolationOptions, type IsolationProblem, isolationProblem } from './isolate/isolation-problem.ts';
export type { IsolationTest } from './isolate/isolation-test.ts';
export { type Outcome, type Outcomes, outcomesOf } from './isolate/outcome-bands.ts';
export { type StepLoss, type StepLosses, type StepLossOptions, stepLosses, type WalkedStep, type WalkOf } from './isolate/step-losses.ts';
export { treeMinutes } from './isolate/tree-minutes.ts';
export { type MinutesModel, USUAL_MINUTES, usualMinutes } from './isolate/usual-minutes.ts';
export { matrixWords } from './matrix-words.ts';
export { type NextOptions, type NextReading, type NextReadings, nextReadings } from './next/next-readings.ts';
export { type Reached, reachedCircuits } from './next/reached-circuits.ts';
export { type ReadingWorth, readingWorth } from './next/reading-worth.ts';
export { outcomeWords } from './next/reason-words.ts';
export { type AdviceOptions, type NamedFinding, type WalkAdvice, WalkAdvisor } from './next/walk-advice.ts';
export { benchCandidates, stepCandidates, type WalkCandidate } from './next/walk-candidates.ts';
export { BenchShows } from './observe/bench-shows.ts';
export type { House } from './observe/fact-spread.ts';
export { type Probe, probeKey, probeOf, probeWords } from './observe/probe.ts';
export type { Evidence } from './posterior/evidence.ts';
export { type Hypothesis, hypotheses, PRIORS } from './posterior/hypotheses.ts';
export { FLOOR, type Posterior, posteriorOf, SHOWS_ANYTHING } from './posterior/posterior.ts';
export { MODEL_SPREAD, unknownDensity } from './posterior/reading-spread.ts';
export { contradictionWords, evidenceWords } from './posterior/suspect-words.ts';
export {
  type Contradiction,
  type Diagnosis,
  diagnose,
  diagnosisOf,
  type Suspect,
  SuspectBenches,
  type Suspects,
  suspectsOf,
} from './posterior/suspects.ts';
export { evidenceOf, type Trail, trailAfter, trailOfLog, trailOfPath, type WalkContext } from './posterior/walk-evidence.ts';
export { type MatrixProblem, readMatrix } from './read-matrix.ts';
export { type Repair, repairCost, repairOrder } from './repair-order.ts';
export { ExactSearch, MOST_SETS } from './search/exact-search.ts';
export { InformationGain, type Policy, Rollout } from './search/greedy-search.ts';
export { huffmanLength } from './search/huffman-length.ts';
export { lowerBound } from './search/lower-bound.ts';
export { SuspectSets } from './search/suspect-sets.ts';
export { planMinutes, planOf, stateMinutes, type TestPlan } from './search/test-plan.ts';
export type { TestProblem } from './search/test-problem.ts';
export { type Sequence, sequenceTests } from './sequence-tests.ts';
export { type MatrixSetUps, matrixProblem, type TestMatrix } from './test-matrix.ts';
