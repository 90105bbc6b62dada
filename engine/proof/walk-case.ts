import { afterWay, type CircuitState, type CompiledEdition, type CompiledStep, circuitKey, untouched } from '../walk/index.ts';
import type { BenchCase, BenchWalk, Shown } from './bench-walk.ts';

/** One step of a case's walk, with what was shown there. */
export type CaseStep = { readonly step: CompiledStep; readonly circuit: CircuitState; readonly on: string; readonly shown: Shown };

/** One way that a case can end: at a finding, at a handoff, or going round for ever. */
export type CaseEnd = { readonly at: CompiledStep; readonly minutes: number; readonly path: readonly CaseStep[]; readonly endless: boolean };

/** Every way that a case can end; more than one where a reading's accuracy reaches over a band's edge, or the bench cannot tell. */
export type CaseWalk = { readonly ends: readonly CaseEnd[]; readonly steps: readonly CaseStep[] };

// A case whose readings straddle edge after edge doubles at each; past this many ends the rest add nothing to what is known.
const MOST_ENDS = 64;

/**
 * Walks a tree in one case, with what the simulated meter and the signs show. Where a reading reaches over an edge, or
 * nothing can be told, every way is followed, so that what holds for all ends is sure.
 */
export function walkCase(edition: CompiledEdition, bench: BenchWalk, at: BenchCase, caseKey: string): CaseWalk {
  const ends: CaseEnd[] = [];
  const steps: CaseStep[] = [];
  const start = edition.steps.get(edition.start);
  const follow = (step: CompiledStep, circuit: CircuitState, minutes: number, path: readonly CaseStep[], seen: ReadonlySet<string>): void => {
    if (ends.length >= MOST_ENDS) return;
    const here = `${step.key} ${circuitKey(circuit)}`;
    const spent = minutes + step.step.minutes;
    if (step.step.kind === 'finding' || step.step.kind === 'handoff') {
      ends.push({ at: step, minutes: spent, path, endless: false });
      return;
    }
    if (seen.has(here)) {
      ends.push({ at: step, minutes: spent, path, endless: true });
      return;
    }
    const shown = bench.shown(step, at, caseKey, circuit);
    for (const on of shown.ons) {
      const key = step.leadsTo.get(on);
      const next = key === undefined ? undefined : edition.steps.get(key);
      if (!next) continue;
      const taken: CaseStep = { step, circuit, on, shown };
      steps.push(taken);
      follow(next, afterWay(step, circuit, on), spent, [...path, taken], new Set(seen).add(here));
    }
  };
  if (start) follow(start, untouched(edition.asFound), 0, [], new Set());
  return { ends, steps };
}

/** The path of a case as a tech would tell it: each step with what was shown and the way taken. */
export function caseTold({ path, at }: CaseEnd): readonly string[] {
  return [...path.map(({ step, on, shown }) => `${step.step.title}: ${shown.reading ? `${shown.reading.shown}, ` : ''}${on}`), at.step.title];
}
