import { afterWay, type CircuitState, type CompiledEdition, type CompiledStep, untouched } from '../../walk/index.ts';
import { isPreparing } from '../isolate/is-preparing.ts';

/** A step as a tree's shortest path comes to it: how the circuit stands then, and the acts and dead readings that lead straight up to it. */
export type Reached = { readonly step: CompiledStep; readonly circuit: CircuitState; readonly chain: readonly CompiledStep[] };

/** Every step that a walk of an edition can come to, by key. */
export function reachedCircuits(edition: CompiledEdition): ReadonlyMap<string, Reached> {
  const start = edition.steps.get(edition.start);
  const reached = new Map<string, Reached>();
  const queue: Reached[] = start ? [{ step: start, circuit: untouched(edition.asFound), chain: [] }] : [];
  for (const at of queue) {
    if (reached.has(at.step.key)) continue;
    reached.set(at.step.key, at);
    const chain = isPreparing(at.step.step) ? [...at.chain, at.step] : [];
    for (const [on, key] of at.step.leadsTo) {
      const next = edition.steps.get(key);
      if (next) queue.push({ step: next, circuit: afterWay(at.step, at.circuit, on), chain });
    }
  }
  return reached;
}
