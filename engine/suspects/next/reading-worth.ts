import { type MeterAccuracy, USUAL_METER } from '../../quantity/index.ts';
import type { CircuitState } from '../../walk/index.ts';
import { expectedEntropy } from '../expected-entropy.ts';
import { outcomesOf } from '../isolate/outcome-bands.ts';
import type { Probe } from '../observe/probe.ts';
import type { Diagnosis } from '../posterior/suspects.ts';
import { faultsKey, plausibleStates } from './plausible.ts';

/** What a reading or look could tell, judged before it was taken. */
export type ReadingWorth = {
  /** Bits that it could be expected to tell. */
  readonly gain: number;
  /** The faults that are likeliest before it, none for nothing wrong; and the probability with which it would show what they show. */
  readonly favourite: readonly string[];
  readonly confirms: number;
  /** What was left before it, likeliest first. */
  readonly left: readonly { readonly faults: readonly string[]; readonly probability: number }[];
};

/** The worth of a probe for a diagnosis with the circuit as it stands; undefined where a bench cannot say what it shows. */
export function readingWorth(
  diagnosis: Diagnosis,
  probe: Probe,
  circuit: CircuitState,
  meter: MeterAccuracy = USUAL_METER,
): ReadingWorth | undefined {
  const states = plausibleStates(diagnosis);
  const whole = states.reduce((sum, { probability }) => sum + probability, 0);
  if (whole <= 0) return undefined;
  const values = states.map(({ bench, faults }) => {
    const [shown] = diagnosis.benches.get(bench)?.usualColumn(probe, circuit, [{ faults, key: faults.join('+') }]) ?? [];
    return shown ?? Number.NaN;
  });
  if (values.some(Number.isNaN)) return undefined;
  const outcomes = outcomesOf(
    probe,
    values.map((value) => Float64Array.of(value)),
    meter,
  );
  // A look that shows the same whatever is wrong has no outcomes to tell apart.
  const shown = states.map((_, i) => outcomes?.of[i]?.[0] ?? 0);
  const left = new Map<string, Left>();
  for (const [i, state] of states.entries()) {
    const key = faultsKey(state);
    const one = left.get(key) ?? { faults: state.faults, probability: 0, by: new Map<number, number>() };
    const share = state.probability / whole;
    const outcome = shown[i] ?? 0;
    left.set(key, { ...one, probability: one.probability + share, by: one.by.set(outcome, (one.by.get(outcome) ?? 0) + share) });
  }
  const likeliestFirst = [...left.values()].sort((a, b) => b.probability - a.probability);
  const priors = likeliestFirst.map(({ probability }) => probability);
  const likelihood = [...new Set(shown)].map((outcome) => likeliestFirst.map(({ by, probability }) => (by.get(outcome) ?? 0) / probability));
  const favourite = likeliestFirst[0]?.faults ?? [];
  const asFavourite = shown[states.findIndex((state) => faultsKey(state) === favourite.join('+'))];
  return {
    gain: Math.max(0, expectedEntropy(priors, [priors.map(() => 1)]) - expectedEntropy(priors, likelihood)),
    favourite,
    confirms: states.reduce((sum, { probability }, i) => (shown[i] === asFavourite ? sum + probability / whole : sum), 0),
    left: likeliestFirst,
  };
}

/** The same faults on several wirings are one thing to put right; `by`: how its probability falls to what the probe would show. */
type Left = { readonly faults: readonly string[]; readonly probability: number; readonly by: Map<number, number> };
