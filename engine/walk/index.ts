export { factUnit } from '../tree/index.ts';
export { canonicalHash } from './canonical-hash.ts';
export { afterWay } from './circuit-moves.ts';
export {
  type AsFound,
  afterAction,
  afterDeadReading,
  type CircuitState,
  circuitKey,
  type DeadProof,
  putBackItems,
  putBackText,
  puttingBack,
  untouched,
} from './circuit-state.ts';
export { type CompiledEdition, type CompiledStep, compileEdition, isDeadWay, mustBeRead, stepKey } from './compiled-edition.ts';
export { computedFormulas, computedNumber } from './computed-numbers.ts';
export { type DrawnCircuit, drawnCircuit } from './drawn-circuit.ts';
export { type Edition, type EditionHead, editionHead, editionSchema } from './edition.ts';
export { buildEdition, type EditionProblem, type EditionSources, readEdition } from './edition-builder.ts';
export { type Gauge, type GaugeBand, gaugeBands, judge, judgeValue } from './judge.ts';
export { minutesBetween } from './minutes-between.ts';
export type { Refusal } from './refusal.ts';
export { expectedAt } from './refusal-of.ts';
export { concernWords, logProblemWords, refusalWords } from './refusal-words.ts';
export { type LogProblem, logLines, type Replay, replayLog } from './replay-log.ts';
export { type SafetyConcern, SafetyModel } from './safety-model.ts';
export { factBox, factValue, type SiteFacts, siteFacts } from './site-facts.ts';
export { answersOf, viewOf } from './view-of.ts';
export { beginWalk, editionHash, NO_LINE_BEFORE, type Stamp, takeEvent, type Walk, type WalkableEdition, walkableEdition } from './walk.ts';
export { type Judged, type WalkEvent, type WalkEventType, walkEventSchema } from './walk-event.ts';
export { type WalkLine, walkLineSchema } from './walk-line.ts';
export { type WalkMachine, walkMachine } from './walk-machine.ts';
export { type WalkPosition, walkPosition } from './walk-position.ts';
export { benchesOf } from './walk-rules.ts';
export type { ComputedNumber, FactState, PathEntry, PutBackItem, Scale, ScaleBand, Verdict, WalkOutcome, WalkPhase, WalkView } from './walk-view.ts';
