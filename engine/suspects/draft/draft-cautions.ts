import type { Bench } from '../../bench/index.ts';
import type { Caution } from '../../tree/index.ts';
import type { CircuitState, SafetyModel } from '../../walk/index.ts';
import { CONTROL_OPENING, DEAD_STEP, inWords, LINE_OPENING, LINE_STEP, SPOKEN_OF } from './draft-words.ts';

/** The cautions that stand on every step: of the voltages that are there, and of what the bench's own words speak of. */
export function openingCautions(bench: Bench, safety: SafetyModel, found: CircuitState): readonly Caution[] {
  const words = [
    bench.title,
    ...Object.keys(bench.parts),
    ...Object.keys(bench.signs),
    ...Object.keys(bench.settings),
    ...Object.values(bench.faults).map(({ says }) => says ?? ''),
  ]
    .map((text) => inWords(text).toLowerCase())
    .join('\n');
  const line = safety.couldBeLine(bench.terminals, found) ? [LINE_OPENING] : [];
  return [...line, ...SPOKEN_OF.filter((each) => each.words.test(words)).map(({ caution }) => caution), CONTROL_OPENING];
}

/** The caution of a reading on volts, by what could stand on its points. */
export const readingCautions = (safety: SafetyModel, across: readonly [string, string] | undefined, circuit: CircuitState): readonly Caution[] =>
  across && safety.couldBeLine(across, circuit) ? [LINE_STEP] : [];

export const deadCautions = (safety: SafetyModel, across: readonly [string, string], circuit: CircuitState): readonly Caution[] =>
  safety.couldBeLine(across, circuit) ? [DEAD_STEP] : [];
