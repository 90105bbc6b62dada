export { compareEditions, type EditionComparison, isSure, LEAST_CLOSED, quantileOf } from './crew/compare-editions.ts';
export { type CrewMeasures, crewMeasures, type Habit, LEAST_CALLS, type MeasureSummary, type PersonSummary } from './crew/crew-measures.ts';
export { type Interval, meanOf, shareOf } from './crew/intervals.ts';
export { type ConfirmedCount, type LearntWeight, learntWeights, PRIOR_CALLS } from './crew/learnt-weights.ts';
export { crewPicture, type PicturedWalk } from './crew/picture-of.ts';
export {
  added,
  addTo,
  type CrewPicture,
  type EditionPicture,
  emptyPicture,
  emptyPictureStep,
  type MinutesBins,
  minutesBin,
  type OpenPicture,
  type OpenPictureStep,
  type PictureStep,
} from './crew-picture.ts';
export { type BestDrillPath, bestDrillPath } from './drill/best-drill-path.ts';
export { clockMinutes } from './drill/clock-minutes.ts';
export { drawFault } from './drill/draw-fault.ts';
export { DRILL_DIAL, type DrillGround, type DrillPlace, type DrillProblem, drillGround, drillPoints } from './drill/drill-ground.ts';
export { type DrillMove, drillMoveSchema } from './drill/drill-move.ts';
export type { DrillAnswer, DrillPathStep } from './drill/drill-path.ts';
export { type DrillLine, type DrillRecord, drillLineSchema, drillRecordSchema } from './drill/drill-record.ts';
export type { DrillRefusal } from './drill/drill-refusal.ts';
export { beginDrill, type DrillEnd, type DrillRun, type TakenMove, takeMove } from './drill/drill-run.ts';
export { type DrillTask, drillTaskSchema } from './drill/drill-task.ts';
export { drillProblemWords, drillRefusalWords, recordProblemWords } from './drill/drill-words.ts';
export { type RecordProblem, readDrillRecord, replayDrill } from './drill/replay-drill.ts';
export { type DrillScore, type RefusedMove, scoreDrill } from './drill/score-drill.ts';
export { MEASURES, type MeasureWords, measureWords, missingWords } from './measure-words.ts';
export { type ReplayedLine, type ReplayedLog, replayedLog } from './replayed-log.ts';
export { Reviewer, type ReviewOptions } from './reviewer.ts';
export { type ReplayFrame, WalkReplay } from './walk-replay.ts';
export {
  type Confirmation,
  MEASURE_CODES,
  type Measure,
  type MeasureCode,
  type MeasureEvidence,
  type StepStay,
  type WalkReview,
} from './walk-review.ts';
export { staysOf, walkMinutes, walkStays } from './walk-stays.ts';
