import type { CircuitState, CompiledEdition } from '../../walk/index.ts';
import type { IsolationProblem } from '../isolate/isolation-problem.ts';
import type { Stance } from '../isolate/set-up-plan.ts';
import { type Probe, probeKey, probeOf } from '../observe/probe.ts';
import { type Reached, reachedCircuits } from './reached-circuits.ts';

/** A reading or look that could come next: how the circuit must stand for it, and the step of the edition that takes it, where one does. */
export type WalkCandidate = {
  readonly probe: Probe;
  /** Absent where it does not matter how the circuit stands. */
  readonly stance: Stance | undefined;
  /** Of the reading or look alone. */
  readonly minutes: number;
  readonly reached: Reached | undefined;
};

const stanceOf = ({ settings, jumpers, lifted }: CircuitState): Stance => ({ settings, jumpers, lifted });

const isClean = ({ jumpers, lifted }: Stance): boolean => jumpers.length === 0 && lifted.length === 0;

/** Readings and looks of an edition's own steps, as the circuit stands when the tree comes to them, and with what is jumpered or lifted now left so. */
export function stepCandidates(edition: CompiledEdition, now: CircuitState): readonly WalkCandidate[] {
  return [...reachedCircuits(edition).values()].flatMap((reached): readonly WalkCandidate[] => {
    const { step } = reached.step;
    if ((step.kind !== 'reading' && step.kind !== 'look') || (step.kind === 'reading' && step.proves)) return [];
    const probe = probeOf(step);
    if (!probe) return [];
    const held = Object.fromEntries(step.while.map(({ setting, state }) => [setting, state]));
    // What the path to a step left jumpered or lifted is only what it needs where an act right before it did it.
    const prepared = reached.chain.length > 0;
    const settings = { ...reached.circuit.settings, ...held };
    const own: Stance = prepared ? { ...stanceOf(reached.circuit), settings } : { settings, jumpers: [], lifted: [] };
    const asNow: Stance = { settings, jumpers: now.jumpers, lifted: now.lifted };
    const candidate = (stance: Stance): WalkCandidate => ({ probe, stance, minutes: step.minutes, reached });
    return isClean(asNow) || prepared ? [candidate(own)] : [candidate(own), candidate(asNow)];
  });
}

/** Every admissible reading and look of one bench that is worth trying, whether a step takes it or not. */
export function benchCandidates(problem: IsolationProblem, edition: CompiledEdition): readonly WalkCandidate[] {
  const byProbe = new Map<string, Reached>();
  for (const reached of reachedCircuits(edition).values()) {
    const { step } = reached.step;
    const probe = step.kind === 'reading' || step.kind === 'look' ? probeOf(step) : undefined;
    if (probe && !byProbe.has(probeKey(probe))) byProbe.set(probeKey(probe), reached);
  }
  return problem.tests.map(({ probe, stance, minutes }) => ({
    probe,
    stance: stance && { ...stance, settings: { ...edition.asFound, ...stance.settings } },
    minutes,
    reached: byProbe.get(probeKey(probe)),
  }));
}
