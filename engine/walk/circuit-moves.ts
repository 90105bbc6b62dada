import { afterAction, afterDeadReading, type CircuitState } from './circuit-state.ts';
import { type CompiledStep, isDeadWay } from './compiled-edition.ts';

/** The circuit after a step is left by one of its ways: what its act changed, or what its reading proved dead. */
export function afterWay(step: CompiledStep, circuit: CircuitState, on: string): CircuitState {
  if (step.step.kind === 'act' && on === 'done') return step.step.does.reduce<CircuitState>(afterAction, circuit);
  if (step.step.kind === 'reading' && step.step.proves === 'dead' && step.step.across && isDeadWay(step, on))
    return afterDeadReading(circuit, step.step.across);
  return circuit;
}
