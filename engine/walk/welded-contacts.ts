import type { Bench } from '../bench/index.ts';

const WELDED = 'welded-';

/**
 * A bench with one more fault for every contact that could weld: what is proved of it holds for contacts that its own list of
 * faults does not suspect. Other faults stay as they are.
 */
export function withWeldedContacts(bench: Bench): Bench {
  const faults = { ...bench.faults };
  for (const [part, spec] of Object.entries(bench.parts)) {
    if (spec.kind !== 'contact' && spec.kind !== 'switch' && spec.kind !== 'limit') continue;
    const known = Object.values(faults).some((fault) => fault.part === part && (fault.becomes === 'stuck-closed' || fault.becomes === 'shorted'));
    if (!known) faults[`${WELDED}${part}`] = { part, becomes: 'stuck-closed', weight: 1, says: `${part} welded closed` };
  }
  return { ...bench, faults };
}
