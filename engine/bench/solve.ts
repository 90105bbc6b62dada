import { buildCircuit, type Circuit } from './circuit.ts';
import type { PreparedBench } from './prepare.ts';
import { settle } from './settle.ts';
import { type Situation, situationKey } from './situation.ts';
import type { Solution, Solved, Unsolved } from './solution.ts';

/** The settings of a situation as numbers, or the name that is not known. A setting that is left out is as found. */
export function settingNumbers({ index }: PreparedBench, settings: Situation['settings']): Int8Array | Unsolved {
  for (const [name, state] of Object.entries(settings)) {
    const setting = index.settings.find((candidate) => candidate.name === name);
    if (!setting) return { ok: false, reason: 'unknown-name', what: 'setting', name, known: index.settings.map((known) => known.name) };
    if (!setting.states.includes(state)) return { ok: false, reason: 'unknown-name', what: `state of ${name}`, name: state, known: setting.states };
  }
  return Int8Array.from(index.settings, ({ name, states }) => Math.max(0, states.indexOf(settings[name] ?? states[0] ?? '')));
}

/**
 * Solves an edited bench from the state before power; with `from`, from how another situation of the same bench had settled, so that relays
 * between pull-in and drop-out stay as they were and fuses stay blown.
 */
export function solve(prepared: PreparedBench, situation: Situation, from?: Solved): Solution {
  const built = buildCircuit(prepared, situation);
  return built.ok ? solveCircuit(built.circuit, situation, from) : built;
}

/** As `solve`, on a circuit already built for the situation's facts, faults, jumpers and lifted leads. */
export function solveCircuit(circuit: Circuit, situation: Situation, from?: Solved): Solution {
  const settings = settingNumbers(circuit.prepared, situation.settings);
  if ('ok' in settings) return settings;
  const settled = settle(circuit, settings, from?.states);
  return settled.ok ? { ...settled, situation, circuit } : settled;
}

/** Keeps circuits and solutions of one bench by situation; for work that asks for the same ones again and again. */
export class SolvedBench {
  private readonly circuits = new Map<string, ReturnType<typeof buildCircuit>>();
  private readonly solutions = new Map<string, Solution>();

  constructor(
    readonly prepared: PreparedBench,
    /** How many solutions to keep before starting again. */
    private readonly most = 20_000,
  ) {}

  solve(situation: Situation): Solution {
    const key = situationKey(situation);
    let solution = this.solutions.get(key);
    if (!solution) {
      if (this.solutions.size >= this.most) this.clear();
      const shape = situationKey({ ...situation, settings: {} });
      let built = this.circuits.get(shape);
      if (!built) {
        built = buildCircuit(this.prepared, situation);
        this.circuits.set(shape, built);
      }
      solution = built.ok ? solveCircuit(built.circuit, situation) : built;
      this.solutions.set(key, solution);
    }
    return solution;
  }

  clear(): void {
    this.circuits.clear();
    this.solutions.clear();
  }
}
