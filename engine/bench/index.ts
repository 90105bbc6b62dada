export { FAULT_MODES, type FaultMode } from './becoming.ts';
export { type Bench, type BenchFact, benchSchema, type Fault } from './bench.ts';
export { benchJsonSchema } from './bench-json-schema.ts';
export { type BenchNames, namesOf } from './bench-names.ts';
export { blownFuses, fuseParts, isBlown, withBlownFuses } from './blown-fuses.ts';
export { pointNumber } from './circuit.ts';
export { factBox, factCorners, usualFacts } from './fact-corners.ts';
export { CLASS_2_VOLTS, type LiveClass } from './live-graph.ts';
export { type Energised, energised, type Liveness, type WorstCase, worstCase } from './liveness.ts';
export {
  INPUT_OHMS,
  LOW_INPUT_OHMS,
  type MeterOptions,
  type MeterPlace,
  type MeterReading,
  type MeterRefusal,
  MOST_OHMS,
  measure,
  meterCorners,
} from './meter.ts';
export { GROUND } from './names.ts';
export { PART_KIND_NAMES, type Part, type PartKindName } from './parts/part-kinds.ts';
export { type PreparedBench, prepare } from './prepare.ts';
export { parseBench, type ReadBench, readBench } from './read-bench.ts';
export { bypassedBy, safetyContacts } from './safety-contacts.ts';
export {
  asFound,
  type Situation,
  situationKey,
  withFacts,
  withFault,
  withJumper,
  withLanded,
  withLifted,
  withoutFault,
  withoutJumper,
  withSetting,
} from './situation.ts';
export { type Complex, nodeDcVolts, nodeVolts, partStates, type Solution, type Solved, signsOf, type Unsolved } from './solution.ts';
export { meterRefusalWords, unsolvedWords } from './solution-words.ts';
export { SolvedBench, solve } from './solve.ts';
export { type VoltsAmong, voltsAmong } from './volts-among.ts';
export { benchWords, computeWords, type Words } from './wording.ts';
