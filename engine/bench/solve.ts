import { buildCircuit, type Circuit } from './circuit.ts';
import type { PreparedBench } from './prepare.ts';
import { settle } from './settle.ts';
import { type Situation, situationKey } from './situation.ts';
import type { Solution, Solved, Unsolved } from './solution.ts';

/** The settings of a situation as numbers, or the name that is not known. A setting that is left out is as found. */
export function settingNumbers({ index }: PreparedBench, settings: Situation['settings']): Int8Array | Unsolved {
  const numbers = new Int8Array(index.settings.length);
  let given = 0;
  for (const [i, { name, states }] of index.settings.entries()) {
    const state = Object.hasOwn(settings, name) ? settings[name] : undefined;
    if (state === undefined) continue;
    given += 1;
    const number = states.indexOf(state);
    if (number < 0) return { ok: false, reason: 'unknown-name', what: `state of ${name}`, name: state, known: states };
    numbers[i] = number;
  }
  if (given === Object.keys(settings).length) return numbers;
  const known = index.settings.map(({ name }) => name);
  return { ok: false, reason: 'unknown-name', what: 'setting', name: Object.keys(settings).find((name) => !known.includes(name)) ?? '', known };
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
