import type { Diagnosis } from '../posterior/suspects.ts';

/** Something that is still to be reckoned with: faults of a bench that are there now, repaired ones taken off. */
export type PlausibleState = { readonly bench: string; readonly faults: readonly string[]; readonly probability: number };

// A look that goes against a fault leaves it a two-hundredth; what is below this share of the likeliest waits until something speaks for it again.
const SHARE = 0.02;

// The most that a search is given; what is left out is all less likely.
const MOST = 60;

/** What a diagnosis leaves, likeliest first. */
export function plausibleStates({ hypotheses, posterior, excluded }: Diagnosis): readonly PlausibleState[] {
  const merged = new Map<string, { bench: string; faults: readonly string[]; probability: number }>();
  for (const [i, { bench, faults }] of hypotheses.entries()) {
    const left = faults.filter((fault) => !excluded.includes(fault));
    const key = `${bench} ${left.join('+')}`;
    const state = merged.get(key) ?? { bench, faults: left, probability: 0 };
    state.probability += posterior.probabilities[i] ?? 0;
    merged.set(key, state);
  }
  const states = [...merged.values()].sort((a, b) => b.probability - a.probability);
  const least = SHARE * (states[0]?.probability ?? 0);
  return states.filter(({ probability }) => probability >= least).slice(0, MOST);
}

/** Two states are one to a tech when the same part is to be put right. */
export const faultsKey = ({ faults }: PlausibleState): string => faults.join('+');
