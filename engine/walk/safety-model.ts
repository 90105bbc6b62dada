import {
  asFound,
  type Bench,
  bypassedBy,
  CLASS_2_VOLTS,
  factBox,
  type Liveness,
  type PreparedBench,
  pointNumber,
  prepare,
  type Situation,
  type Solved,
  SolvedBench,
  situationKey,
  withJumper,
  worstCase,
} from '../bench/index.ts';
import { NEEDS_DEAD_CIRCUIT } from '../quantity/index.ts';
import { type Action, type ReadingStep, showAction } from '../tree/index.ts';
import { afterAction, type CircuitState, type DeadProof } from './circuit-state.ts';
import type { CompiledStep } from './compiled-edition.ts';
import { withWeldedContacts } from './welded-contacts.ts';

/** What a step would do that it must not. `when` names the fault or setting that makes the points live, where a sound circuit would not. */
export type SafetyConcern =
  | { readonly code: 'resistance-while-live'; readonly points: readonly [string, string]; readonly source: string }
  | { readonly code: 'touched-while-live'; readonly action: string; readonly point: string; readonly source: string }
  | { readonly code: 'not-proved-dead'; readonly points: readonly string[]; readonly source: string; readonly when: string }
  | { readonly code: 'meter-not-proved'; readonly points: readonly string[]; readonly when: 'before' | 'after' }
  | { readonly code: 'safety-bypassed'; readonly part: string; readonly action: string };

// Above this, a test current meets a live circuit, and a meter on volts would have shown it: the most that 'dead' may read.
const LIVE_VOLTS = 5;

/** What a meter is set to, and the two points it is put on. */
type TakenReading = Pick<ReadingStep, 'takes'> & { readonly across?: readonly [string, string] | undefined };

/** Volts on a circuit as it may stand, between two points and to ground; 0 for points that it has not. */
type Standing = { readonly source: string; readonly volts: (a: string, b: string) => number; readonly toGround: (point: string) => number };

/** One way that the circuit may stand, with what makes it so; the first is the sound one. */
type Scenario = { readonly why: string | undefined; readonly at: Standing };

/**
 * What could be live on one bench, for any state that the tech has put it in: as the sound circuit has it, under each fault,
 * with each contact welded, and with each thing that was turned not turned at all. What a reading proved dead takes those
 * scenarios away that the reading would have shown.
 */
export class SafetyModel {
  private readonly solved: SolvedBench;
  private readonly base: Situation;
  private readonly scenarioLists = new Map<string, readonly Scenario[]>();

  constructor(readonly bench: Bench) {
    const worst = withWeldedContacts(bench);
    this.solved = new SolvedBench(prepare(worst));
    const facts = Object.fromEntries(Object.entries(factBox(bench)).map(([name, { to }]) => [name, to]));
    this.base = { ...asFound(worst), facts };
  }

  /** What is wrong with working a step while the circuit stands so. */
  concerns(step: Pick<CompiledStep, 'step'>, circuit: CircuitState): readonly SafetyConcern[] {
    const {
      step: { kind },
    } = step;
    if (kind === 'act') return this.actConcerns(step.step.kind === 'act' ? step.step.does : [], circuit);
    return step.step.kind === 'reading' ? this.readingConcerns(step.step, circuit) : [];
  }

  /** What is wrong with taking a reading while the circuit stands so. */
  readingConcerns({ takes, across }: TakenReading, circuit: CircuitState): readonly SafetyConcern[] {
    return across && NEEDS_DEAD_CIRCUIT.has(takes) ? this.resistanceConcerns(across, circuit) : [];
  }

  /** What is wrong with doing these one after the other. */
  actConcerns(actions: readonly Action[], start: CircuitState): readonly SafetyConcern[] {
    let circuit = start;
    const found: SafetyConcern[] = [];
    for (const action of actions) {
      found.push(...this.touchConcerns(action, circuit));
      circuit = afterAction(circuit, action);
      if (action.do === 'jumper') found.push(...this.bypassConcerns(action, circuit));
    }
    return found;
  }

  private resistanceConcerns(points: readonly [string, string], circuit: CircuitState): readonly SafetyConcern[] {
    const scenarios = this.scenarios(circuit);
    const isLive = ({ at }: Scenario): boolean => at.volts(...points) > LIVE_VOLTS || points.some((point) => at.toGround(point) > CLASS_2_VOLTS);
    const sound = scenarios.find((s) => s.why === undefined);
    if (sound && isLive(sound)) return [{ code: 'resistance-while-live', points, source: sound.at.source }];
    return this.unprovedConcerns(scenarios.filter(isLive), circuit, points);
  }

  private touchConcerns(action: Action, circuit: CircuitState): readonly SafetyConcern[] {
    const points = this.touched(action);
    if (points.length === 0) return [];
    const scenarios = this.scenarios(circuit);
    const livePoint = ({ at }: Scenario): string | undefined =>
      points.find((p) => at.toGround(p) > CLASS_2_VOLTS || points.some((q) => at.volts(p, q) > CLASS_2_VOLTS));
    const sound = scenarios.find((s) => s.why === undefined);
    const point = sound && livePoint(sound);
    if (sound && point !== undefined) return [{ code: 'touched-while-live', action: showAction(action), point, source: sound.at.source }];
    return this.unprovedConcerns(
      scenarios.filter((s) => livePoint(s) !== undefined),
      circuit,
      points,
    );
  }

  /** Scenarios in which the points are live must have been ruled out by a reading that would have shown it. */
  private unprovedConcerns(live: readonly Scenario[], circuit: CircuitState, points: readonly string[]): readonly SafetyConcern[] {
    for (const { why, at } of live) {
      const showing = circuit.dead.filter((proof) => at.volts(...proof.points) > LIVE_VOLTS);
      if (showing.length === 0) return [{ code: 'not-proved-dead', points, source: at.source, when: why ?? '' }];
      // Class 2 needs no live-dead-live; line voltage at the points does, wherever it was read (NFPA 70E 120.5).
      const line = points.some((p) => at.toGround(p) > CLASS_2_VOLTS || points.some((q) => at.volts(p, q) > CLASS_2_VOLTS));
      const lapse = line ? meterLapse(showing) : undefined;
      if (lapse) return [{ code: 'meter-not-proved', points, when: lapse }];
    }
    return [];
  }

  private bypassConcerns(action: Action & { do: 'jumper' }, circuit: CircuitState): readonly SafetyConcern[] {
    const situation = this.situation(circuit);
    const known = situation.jumpers.length === circuit.jumpers.length;
    const parts = known ? bypassedBy(this.solved.prepared, situation, action.from, action.to) : [];
    if (parts.length === 0) return [];
    // Bridged while nothing feeds the circuit, a limit guards nothing: nothing runs.
    const { terminals } = this.bench;
    const feeds = ({ why, at }: Scenario): boolean => why === undefined && terminals.some((p) => at.volts(p, action.from) > LIVE_VOLTS);
    if (!this.scenarios(circuit).some(feeds)) return [];
    return parts.map((part) => ({ code: 'safety-bypassed' as const, part, action: showAction(action) }));
  }

  /** The points that a hand or a lead touches in an action. */
  touched(action: Action): readonly string[] {
    switch (action.do) {
      case 'jumper':
      case 'remove-jumper':
        return [action.from, action.to];
      case 'lift':
      case 'land': {
        const on = this.solved.prepared.index.leads.find((lead) => lead.name === action.lead)?.on;
        return on === undefined ? [] : [on, action.lead];
      }
      default:
        return [];
    }
  }

  /** Whether line voltage could stand on any of these points, whatever is wrong with the circuit. */
  couldBeLine(points: readonly string[], circuit: CircuitState): boolean {
    return this.scenarios(circuit).some(({ at }) =>
      points.some((p) => at.toGround(p) > CLASS_2_VOLTS || points.some((q) => at.volts(p, q) > CLASS_2_VOLTS)),
    );
  }

  /** Whether any voltage could stand on these points, whatever is wrong with the circuit. */
  couldBeLive(points: readonly string[], circuit: CircuitState): boolean {
    return this.scenarios(circuit).some(({ at }) => points.some((p) => points.some((q) => at.volts(p, q) > LIVE_VOLTS)));
  }

  /** The bench's situation for what the tech did, as far as this bench has what was touched. */
  private situation(circuit: CircuitState): Situation {
    const { index } = this.solved.prepared;
    const settings = Object.fromEntries(Object.entries(this.base.settings).map(([name, found]) => [name, circuit.settings[name] ?? found]));
    const lifted = circuit.lifted.filter((lead) => index.leads.some(({ name }) => name === lead)).sort();
    const jumpers = circuit.jumpers.filter((ends) => ends.every((end) => index.nodeNumber.has(end)));
    return jumpers.reduce<Situation>((situation, [a, b]) => withJumper(situation, a, b), { ...this.base, settings, lifted });
  }

  private scenarios(circuit: CircuitState): readonly Scenario[] {
    const situation = this.situation(circuit);
    const { settings } = situation;
    const key = situationKey(situation);
    const kept = this.scenarioLists.get(key);
    if (kept) return kept;
    const list: Scenario[] = [];
    const add = (why: string | undefined, changed: Situation): void => {
      const solved = this.solved.solve(changed);
      list.push({ why, at: solved.ok ? standing(solved) : unsettled(this.solved.prepared, changed) });
    };
    // Something is wrong already, or nobody would be here: what was turned must be allowed to be a lie on top of each fault.
    const lies = Object.entries(settings).flatMap(([setting, state]) => {
      const found = this.base.settings[setting];
      return found === undefined || found === state
        ? []
        : [{ why: `${setting} is not really ${state}`, settings: { ...settings, [setting]: found } }];
    });
    add(undefined, situation);
    for (const lie of lies) add(lie.why, { ...situation, settings: lie.settings });
    for (const [fault, { says }] of Object.entries(this.solved.prepared.bench.faults)) {
      const why = says ?? fault;
      add(why, { ...situation, faults: [fault] });
      for (const lie of lies) add(`${lie.why}, and: ${why}`, { ...situation, settings: lie.settings, faults: [fault] });
    }
    this.scenarioLists.set(key, list);
    return list;
  }
}

/** What a solved circuit has on its points. */
function standing(solved: Solved): Standing {
  const { circuit, view } = solved;
  const { index } = circuit.prepared;
  const node = (point: string): number | undefined =>
    index.nodeNumber.has(point) ? pointNumber(circuit.prepared, point, circuit.lifted) : undefined;
  const strongest = [...circuit.sources].sort((a, b) => b.volts - a.volts)[0];
  return {
    source: index.parts[strongest?.part ?? -1]?.name ?? 'a source',
    volts(a, b) {
      const [from, to] = [node(a), node(b)];
      return from === undefined || to === undefined ? 0 : Math.max(view.volts(from, to), Math.abs(view.dcVolts(from, to)));
    },
    toGround(point) {
      const at = node(point);
      return at === undefined ? 0 : view.volts(at, -1);
    },
  };
}

// A circuit that chatters, or has no solution, is taken at its worst: any contact may be closed at any moment.
function unsettled(prepared: PreparedBench, situation: Situation): Standing {
  const worst = worstCase(prepared, situation);
  const volts = (live: Liveness): number => (live.class === 'dead' ? 0 : Number.POSITIVE_INFINITY);
  if (!worst.ok) return { source: 'a source', volts: () => Number.POSITIVE_INFINITY, toGround: () => Number.POSITIVE_INFINITY };
  return {
    source: 'a circuit that does not settle',
    volts: (a, b) => volts(worst.across(a, b)),
    toGround: (point) => (worst.at(point).class === 'line' ? Number.POSITIVE_INFINITY : 0),
  };
}

/** Which half of live-dead-live is missing from every proof that would have shown the danger. */
function meterLapse(proofs: readonly DeadProof[]): 'before' | 'after' | undefined {
  if (proofs.some((proof) => proof.meterBefore && proof.meterAfter)) return undefined;
  return proofs.some((proof) => proof.meterBefore) ? 'after' : 'before';
}
