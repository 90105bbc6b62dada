import type { BenchCase, BenchWalk } from '../../engine/proof/index.ts';
import type { Step } from '../../engine/tree/index.ts';
import type { CircuitState, CompiledEdition, CompiledStep, WalkEvent } from '../../engine/walk/index.ts';
import type { BenchShows, TrySetup } from './try-state.ts';

/** The bench that a tree is tried on, with one case of it. */
export type TryCase = { readonly walk: BenchWalk | undefined; readonly at: BenchCase; readonly setup: TrySetup };

/** What the bench, or the house, shows on a step with the circuit as it stands. */
export function benchShows(edition: CompiledEdition, step: CompiledStep, circuit: CircuitState, { walk, at, setup }: TryCase): BenchShows {
  const { kind } = step.step;
  if (kind === 'act' || kind === 'finding' || kind === 'handoff') return { kind: 'nothing-to-show' };
  if (step.step.kind === 'ask') return { kind: 'answer', on: factOf(edition, step.step.fact, setup) };
  if (!walk) return { kind: 'untold', why: 'no-bench' };
  const { reading, untold, ons } = walk.shown(step, at, JSON.stringify([walk.name, at]), circuit);
  if (reading) {
    // What the display shows is what a tech enters; the other ways are where its accuracy reaches.
    return { kind: 'reading', shown: reading.shown, others: ons.slice(1) };
  }
  if (untold) return { kind: 'untold', why: untold };
  const [on, more] = ons;
  return on === undefined || more !== undefined ? { kind: 'untold', why: 'several' } : { kind: 'answer', on };
}

/** What a tech would tell: what the author typed, the bench that is tried, or the usual. */
function factOf(edition: CompiledEdition, fact: string, { bench, facts }: TrySetup): string {
  if (fact === edition.wiring && bench !== undefined) return bench;
  const spec = edition.facts.get(fact)?.spec;
  return facts[fact] ?? spec?.usual ?? '';
}

/** The event that answers a step with a text: typed, seen or told. */
export function answering(step: Step, text: string): WalkEvent {
  switch (step.kind) {
    case 'reading':
      return { type: 'read', typed: text };
    case 'ask':
      return { type: 'told', fact: step.fact, typed: text };
    case 'act':
      return { type: 'did' };
    default:
      return { type: 'looked', saw: text };
  }
}
