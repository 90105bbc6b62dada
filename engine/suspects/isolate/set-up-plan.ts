import type { PreparedBench } from '../../bench/index.ts';
import { NEEDS_DEAD_CIRCUIT } from '../../quantity/index.ts';
import { type Action, jumperKey } from '../../tree/index.ts';
import { afterAction, afterDeadReading, type CircuitState, circuitKey, type SafetyConcern, type SafetyModel } from '../../walk/index.ts';
import type { Probe } from '../observe/probe.ts';
import type { CommonPoints } from './common-points.ts';
import type { MinutesModel } from './usual-minutes.ts';

/** One thing to do before a probe: an act, or a reading that must show two points dead. `circuit` is how it stands before. */
export type Move =
  | { readonly kind: 'act'; readonly action: Action; readonly circuit: CircuitState }
  | { readonly kind: 'dead'; readonly across: readonly [string, string]; readonly circuit: CircuitState };

/** What it takes to get from one circuit to a probe on another. `circuit` is how it stands then. */
export type SetUpPlan = { readonly moves: readonly Move[]; readonly circuit: CircuitState; readonly minutes: number };

/** How the circuit should stand for a probe: settings, jumpers and lifted leads. */
export type Stance = Pick<CircuitState, 'settings' | 'jumpers' | 'lifted'>;

type Draft = { moves: Move[]; circuit: CircuitState; minutes: number };

/**
 * Finds what has to be done, and in which order, to take a probe safely: temporary things off first, then settings, then the meter proved and the points
 * read dead where the safety rules call for it, then leads lifted and jumpers placed. What no order makes safe has no plan.
 */
export class SetUpPlanner {
  private readonly plans = new Map<string, SetUpPlan | undefined>();

  constructor(
    /** One for each wiring that the site could have: what one of them forbids is forbidden. */
    private readonly models: readonly SafetyModel[],
    private readonly prepared: PreparedBench,
    private readonly points: CommonPoints,
    private readonly minutes: MinutesModel,
  ) {}

  plan(from: CircuitState, stance: Stance, probe: Probe): SetUpPlan | undefined {
    const ohms = probe.kind === 'reading' && NEEDS_DEAD_CIRCUIT.has(probe.takes) ? probe.across : undefined;
    const key = `${circuitKey(from)}>${circuitKey({ ...stance, meterProved: false, dead: [] })}>${ohms?.join('~') ?? ''}`;
    if (this.plans.has(key)) return this.plans.get(key);
    const plan = this.make(from, stance, ohms, probe);
    this.plans.set(key, plan);
    return plan;
  }

  private make(from: CircuitState, stance: Stance, ohms: readonly [string, string] | undefined, probe: Probe): SetUpPlan | undefined {
    const draft: Draft = { moves: [], circuit: from, minutes: 0 };
    const wanted = new Set(stance.jumpers.map(([a, b]) => jumperKey(a, b)));
    const removals: Action[] = [
      ...from.jumpers.filter(([a, b]) => !wanted.has(jumperKey(a, b))).map(([a, b]): Action => ({ do: 'remove-jumper', from: a, to: b })),
      ...from.lifted.filter((lead) => !stance.lifted.includes(lead)).map((lead): Action => ({ do: 'land', lead })),
    ];
    for (const action of removals) if (!this.act(draft, action)) return undefined;
    const turns = Object.entries(stance.settings).filter(([setting, state]) => from.settings[setting] !== state);
    for (const [setting, state] of turns) if (!this.act(draft, { do: 'turn', setting, state })) return undefined;
    const held = new Set(draft.circuit.jumpers.map(([a, b]) => jumperKey(a, b)));
    const additions: Action[] = [
      ...stance.lifted.filter((lead) => !draft.circuit.lifted.includes(lead)).map((lead): Action => ({ do: 'lift', lead })),
      ...stance.jumpers.filter(([a, b]) => !held.has(jumperKey(a, b))).map(([a, b]): Action => ({ do: 'jumper', from: a, to: b })),
    ];
    // Ohms want their points dead, whatever the rules let pass, and before a lead is lifted: then it need not be proved twice.
    if (ohms) {
      if (!this.makeSafe(draft, ohms, (circuit) => this.readingConcerns(probe, circuit))) return undefined;
      const [across] = this.deadPairs(ohms);
      if (draft.circuit.dead.length === 0 && across) this.proveDead(draft, [across]);
    }
    for (const action of additions) if (!this.act(draft, action)) return undefined;
    if (ohms && !this.makeSafe(draft, ohms, (circuit) => this.readingConcerns(probe, circuit))) return undefined;
    return draft;
  }

  private act(draft: Draft, action: Action): boolean {
    const points = this.models[0]?.touched(action) ?? [];
    const [a = '', b = a] = points;
    if (points.length > 0 && !this.makeSafe(draft, [a, b], (circuit) => this.models.flatMap((model) => model.actConcerns([action], circuit))))
      return false;
    this.move(draft, { kind: 'act', action, circuit: draft.circuit });
    return true;
  }

  private move(draft: Draft, move: Move): void {
    draft.moves.push(move);
    draft.circuit = move.kind === 'act' ? afterAction(draft.circuit, move.action) : afterDeadReading(draft.circuit, move.across);
    draft.minutes += move.kind === 'act' ? this.minutes.action(move.action) : this.minutes.dead;
  }

  private readingConcerns(probe: Probe, circuit: CircuitState): readonly SafetyConcern[] {
    return probe.kind === 'reading' ? this.models.flatMap((model) => model.readingConcerns(probe, circuit)) : [];
  }

  /** Proves as much dead as is to be feared. Live-dead-live: the meter is proved before and after (NFPA 70E 120.5). */
  private makeSafe(draft: Draft, points: readonly [string, string], concerns: (circuit: CircuitState) => readonly SafetyConcern[]): boolean {
    const found = concerns(draft.circuit);
    if (found.length === 0) return true;
    if (found.some(({ code }) => code !== 'not-proved-dead' && code !== 'meter-not-proved')) return false;
    const { dead } = draft.circuit;
    const proving = (pairs: Pairs): CircuitState => ({
      ...draft.circuit,
      dead: [...dead, ...pairs.map((pair) => ({ points: [pair[0], pair[1]] as const, meterBefore: true, meterAfter: true }))],
    });
    const enough = subsetsOf(this.deadPairs(points)).find((pairs) => concerns(proving(pairs)).length === 0);
    if (!enough) return false;
    this.proveDead(draft, enough);
    return concerns(draft.circuit).length === 0;
  }

  private proveDead(draft: Draft, pairs: Pairs): void {
    if (!draft.circuit.meterProved) this.move(draft, { kind: 'act', action: { do: 'prove-meter' }, circuit: draft.circuit });
    for (const across of pairs) this.move(draft, { kind: 'dead', across, circuit: draft.circuit });
    this.move(draft, { kind: 'act', action: { do: 'prove-meter' }, circuit: draft.circuit });
  }

  /** The pairs to read dead, in the order to try them: across the points, then from each to the commons. */
  private deadPairs([a, b]: readonly [string, string]): readonly (readonly [string, string])[] {
    const at = (point: string): string => this.prepared.index.leads.find(({ name }) => name === point)?.on ?? point;
    const ends = [...new Set([at(a), at(b)])];
    const across = ends.length === 2 ? [[ends[0] ?? '', ends[1] ?? ''] as const] : [];
    const toCommons = ends.flatMap((end) =>
      [...this.points.commons].filter((common) => !ends.includes(common)).map((common) => [end, common] as const),
    );
    return [...across, ...toCommons];
  }
}

type Pairs = readonly (readonly [string, string])[];

/** None, every one, every two, in order: few readings first. */
function subsetsOf(pairs: Pairs): readonly Pairs[] {
  const twos = pairs.flatMap((one, i) => pairs.slice(i + 1).map((other) => [one, other]));
  return [[], ...pairs.map((pair) => [pair]), ...twos];
}
