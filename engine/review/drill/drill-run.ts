import { blownFuses, type Solved } from '../../bench/index.ts';
import { failure, type Result, success } from '../../result.ts';
import type { Probe } from '../../suspects/index.ts';
import { type Action, jumperKey } from '../../tree/index.ts';
import {
  afterAction,
  afterDeadReading,
  beginWalk,
  type CircuitState,
  type SafetyConcern,
  type Stamp,
  takeEvent,
  type Walk,
  type WalkEvent,
  type WalkLine,
} from '../../walk/index.ts';
import { DRILL_DIAL, type DrillGround, drillPoints } from './drill-ground.ts';
import { type DrillMove, drillMoveSchema } from './drill-move.ts';
import { type DrillLine, type DrillRecord, MOST_LINES } from './drill-record.ts';
import type { DrillRefusal } from './drill-refusal.ts';
import { shownText } from './drill-words.ts';
import { hiddenCircuit, type ProbeShown, probeShown } from './hidden-circuit.ts';

export type DrillEnd = { readonly how: 'named'; readonly faults: readonly string[] } | { readonly how: 'gave-up' } | { readonly how: 'handed-off' };

/** A drill as it stands: plain values, replaced by each move and never changed. */
export type DrillRun = {
  readonly ground: DrillGround;
  readonly record: DrillRecord;
  readonly circuit: CircuitState;
  /** Fuses that are blown, as found or by a move since. */
  readonly blown: readonly string[];
  /** The last reading, for as long as the circuit stands as it did. */
  readonly display?: { readonly probe: Probe; readonly text: string };
  /** In `tree` order: the walk, and its log. */
  readonly walk?: Walk;
  readonly walkLines: readonly WalkLine[];
  readonly end?: DrillEnd;
};

export type TakenMove = {
  readonly run: DrillRun;
  /** What to write before the screen moves on; absent where the move meant nothing. */
  readonly line?: DrillLine;
  readonly refused?: DrillRefusal;
};

/** Volts under which two points read as dead; what could be live would have shown more (engine/walk/safety-model.ts). */
const DEAD_VOLTS = 5;

/** Begins a drill. In `tree` order the walk stands at its opening, with the house's facts told. */
export function beginDrill(ground: DrillGround, id: string, begun: Stamp, by?: string): DrillRun {
  const { found, task } = ground;
  const record: DrillRecord = {
    format: 'ohmward-drill-run/1',
    id,
    task,
    begun: { time: begun.time, mono: begun.mono },
    lines: [],
    ...(by !== undefined && { by }),
  };
  const opened = task.order === 'tree' ? openedWalk(ground, id, begun, by) : undefined;
  const walk = opened?.walk;
  const circuit = walk?.snapshot.context.circuit ?? found;
  return {
    ground,
    record,
    circuit,
    blown: blownIn(hiddenCircuit(ground, circuit)),
    walkLines: opened?.lines ?? [],
    ...(walk && { walk }),
  };
}

type LoggedWalk = { readonly walk: Walk; readonly lines: readonly WalkLine[] };

function openedWalk({ edition, task }: DrillGround, id: string, begun: Stamp, by: string | undefined): LoggedWalk {
  const { wiring, facts } = edition.compiled;
  const told = { ...task.facts, ...(wiring !== undefined && { [wiring]: task.bench }) };
  const events: readonly WalkEvent[] = [
    { type: 'opened', drill: true, ...(by !== undefined && { by }) },
    ...Object.entries(told).flatMap(([fact, typed]): readonly WalkEvent[] => (facts.has(fact) ? [{ type: 'told', fact, typed }] : [])),
  ];
  return events.reduce<LoggedWalk>(
    ({ walk, lines }, event) => {
      const taken = takeEvent(walk, event, begun);
      return taken.ok ? { walk: taken.value.walk, lines: [...lines, taken.value.line] } : { walk, lines };
    },
    { walk: beginWalk(edition, id), lines: [] },
  );
}

/**
 * Takes one move, from anywhere: it is checked here. What the safety rules forbid is refused by what could be live, never by what is, and is
 * kept in the record.
 */
export function takeMove(run: DrillRun, input: unknown, stamp: Stamp): TakenMove {
  const parsed = drillMoveSchema.safeParse(input);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    return { run, refused: { code: 'not-a-move', detail: issue ? `${issue.path.join('.') || 'move'}: ${issue.message}` : 'move' } };
  }
  const move = parsed.data;
  if (run.end) return { run, refused: { code: 'ended' } };
  // Room for the move that ends it.
  const ends = move.do === 'name' || move.do === 'give-up';
  if (run.record.lines.length >= MOST_LINES - (ends ? 0 : 1)) return { run, refused: { code: 'too-long', most: MOST_LINES } };
  const made = make(run, move, stamp);
  if (!made.ok) {
    const concern = concernIn(made.problem);
    if (!concern) return { run, refused: made.problem };
    const line = lineOf(move, stamp, { refused: concern.code });
    return { run: withLine(run, line), line, refused: made.problem };
  }
  const line = lineOf(move, stamp, made.value.shown === undefined ? {} : { shown: made.value.shown });
  return { run: withLine(made.value.run, line), line };
}

const concernIn = (refusal: DrillRefusal): SafetyConcern | undefined =>
  refusal.code === 'unsafe' ? refusal.concern : refusal.code === 'walk' && refusal.refusal.code === 'unsafe' ? refusal.refusal.concern : undefined;

const lineOf = (move: DrillMove, { time, mono }: Stamp, more: Pick<DrillLine, 'shown' | 'refused'>): DrillLine => ({ time, mono, move, ...more });

const withLine = (run: DrillRun, line: DrillLine): DrillRun => ({ ...run, record: { ...run.record, lines: [...run.record.lines, line] } });

type Made = { readonly run: DrillRun; readonly shown?: string };

function make(run: DrillRun, move: DrillMove, stamp: Stamp): Result<Made, DrillRefusal> {
  switch (move.do) {
    case 'measure':
    case 'measure-at':
    case 'look':
      return found(run, move);
    case 'name': {
      if (run.walk) return failure({ code: 'tree-order' });
      const known = Object.keys(run.ground.bench.faults);
      const unknown = move.faults.find((fault) => !known.includes(fault));
      if (unknown !== undefined) return failure({ code: 'unknown', what: 'fault', name: unknown, known });
      return success({ run: { ...run, end: { how: 'named', faults: [...new Set(move.faults)] } } });
    }
    case 'give-up':
      return success({ run: { ...run, end: { how: 'gave-up' } } });
    case 'walk':
      return run.walk ? walked(run, run.walk, move.event, stamp) : failure({ code: 'free-order' });
    default:
      return run.walk ? failure({ code: 'tree-order' }) : acted(run, move);
  }
}

/** What the tech does to the circuit by own choice. */
function acted(run: DrillRun, action: Action): Result<Made, DrillRefusal> {
  const { ground, circuit } = run;
  const missing = whyNotDone(ground, circuit, action);
  if (missing) return failure(missing);
  const [concern] = ground.safety.actConcerns([action], circuit);
  if (concern) return failure({ code: 'unsafe', concern });
  return success({ run: onCircuit(run, afterAction(circuit, action)) });
}

function whyNotDone(ground: DrillGround, circuit: CircuitState, action: Action): DrillRefusal | undefined {
  const { bench } = ground;
  switch (action.do) {
    case 'turn': {
      const states = Object.hasOwn(bench.settings, action.setting) ? bench.settings[action.setting] : undefined;
      if (!states) return { code: 'unknown', what: 'setting', name: action.setting, known: Object.keys(bench.settings) };
      if (!states.includes(action.state)) return { code: 'unknown', what: 'state', name: action.state, known: states };
      return circuit.settings[action.setting] === action.state ? { code: 'already' } : undefined;
    }
    case 'jumper':
    case 'remove-jumper': {
      const wrong = wrongPoints(ground, circuit, [action.from, action.to]);
      if (wrong) return wrong;
      const key = jumperKey(action.from, action.to);
      const isOn = circuit.jumpers.some(([a, b]) => jumperKey(a, b) === key);
      if (action.do === 'jumper') return isOn ? { code: 'already' } : undefined;
      return isOn
        ? undefined
        : { code: 'unknown', what: 'jumper', name: `${action.from} to ${action.to}`, known: circuit.jumpers.map((ends) => ends.join(' to ')) };
    }
    case 'lift':
    case 'land': {
      if (!ground.leads.includes(action.lead)) return { code: 'unknown', what: 'lead', name: action.lead, known: ground.leads };
      return circuit.lifted.includes(action.lead) === (action.do === 'lift') ? { code: 'already' } : undefined;
    }
    case 'prove-meter':
      return undefined;
  }
}

function wrongPoints(ground: DrillGround, circuit: CircuitState, points: readonly [string, string]): DrillRefusal | undefined {
  const known = drillPoints(ground, circuit);
  const unknown = points.find((point) => !known.includes(point));
  if (unknown !== undefined) return { code: 'unknown', what: 'point', name: unknown, known };
  return points[0] === points[1] ? { code: 'same-point', point: points[0] } : undefined;
}

/** None where the circuit goes on switching. */
const blownIn = (solved: Solved | undefined): readonly string[] => (solved ? blownFuses(solved) : []);

/** A lead that is landed again has no loose end for a jumper to hang on. */
function onCircuit(run: DrillRun, next: CircuitState): DrillRun {
  const points = drillPoints(run.ground, next);
  const circuit = { ...next, jumpers: next.jumpers.filter((ends) => ends.every((end) => points.includes(end))) };
  const { display: _, ...rest } = run;
  const blown = [...new Set([...run.blown, ...blownIn(hiddenCircuit(run.ground, circuit, run.blown))])];
  return { ...rest, circuit, blown };
}

/** What the tech reads or looks at. */
function found(run: DrillRun, move: DrillMove & { do: 'measure' | 'measure-at' | 'look' }): Result<Made, DrillRefusal> {
  const { ground, circuit, blown } = run;
  const probe = probeOfMove(move);
  const refused = whyNotRead(ground, circuit, probe);
  if (refused) return failure(refused);
  const shown = probeShown(ground, hiddenCircuit(ground, circuit, blown), probe);
  const text = shownText(shown);
  if (probe.kind === 'look') return success({ run, shown: text });
  // In tree order the walk itself says what was proved dead.
  const dead = !run.walk && isDead(probe, shown) && probe.across;
  return success({ run: { ...run, display: { probe, text }, ...(dead && { circuit: afterDeadReading(circuit, dead) }) }, shown: text });
}

export function probeOfMove(move: DrillMove & { do: 'measure' | 'measure-at' | 'look' }): Probe {
  switch (move.do) {
    case 'measure':
      return { kind: 'reading', takes: move.takes, across: move.across, ...(move.input && { input: move.input }) };
    case 'measure-at':
      return { kind: 'reading', takes: move.takes, at: move.at };
    case 'look':
      return { kind: 'look', sign: move.sign };
  }
}

const isDead = (probe: Probe, shown: ProbeShown): boolean =>
  probe.kind === 'reading' &&
  probe.takes === 'ac-voltage' &&
  shown.kind === 'reading' &&
  shown.reading.ok &&
  shown.reading.value !== 'open' &&
  shown.reading.value < DEAD_VOLTS;

function whyNotRead(ground: DrillGround, circuit: CircuitState, probe: Probe): DrillRefusal | undefined {
  if (probe.kind === 'look') {
    const known = Object.keys(ground.bench.signs);
    return known.includes(probe.sign) ? undefined : { code: 'unknown', what: 'sign', name: probe.sign, known };
  }
  const { takes, across, at } = probe;
  if (!across) {
    const here = ground.places.filter(({ name }) => name === at).map((place) => place.takes);
    return here.includes(takes) ? undefined : { code: 'not-read-here', place: at ?? '', reads: here };
  }
  const dial: readonly string[] = DRILL_DIAL;
  if (!dial.includes(takes)) return { code: 'not-read-here', place: across.join(' to '), reads: dial };
  const wrong = wrongPoints(ground, circuit, across);
  if (wrong) return wrong;
  const [concern] = ground.safety.readingConcerns(probe, circuit);
  return concern && { code: 'unsafe', concern };
}

/** An event of the walk, in tree order. A reading is what stands on the display, from wherever the leads are. */
function walked(run: DrillRun, before: Walk, event: WalkEvent, stamp: Stamp): Result<Made, DrillRefusal> {
  if (event.type === 'read' && event.typed.trim() !== run.display?.text) return failure({ code: 'not-on-the-display', typed: event.typed });
  const taken = takeEvent(before, event, stamp);
  if (!taken.ok) return failure({ code: 'walk', refusal: taken.problem });
  const { walk, line } = taken.value;
  const { circuit, at, path } = walk.snapshot.context;
  const step = before.snapshot.context.at === undefined ? undefined : run.ground.edition.compiled.steps.get(before.snapshot.context.at)?.step;
  const end: DrillEnd | undefined =
    event.type === 'found' && step?.kind === 'finding'
      ? { how: 'named', faults: step.faults }
      : event.type === 'went-on' && step?.kind === 'handoff'
        ? { how: 'handed-off' }
        : undefined;
  const moved = onCircuit({ ...run, walk, walkLines: [...run.walkLines, line] }, circuit);
  // On the same step, with the circuit as it was, the display still stands.
  const stays =
    run.display && at === before.snapshot.context.at && path.length === before.snapshot.context.path.length && sameCircuit(circuit, run.circuit);
  return success({ run: { ...moved, ...(stays && { display: run.display }), ...(end && { end }) } });
}

const sameCircuit = (a: CircuitState, b: CircuitState): boolean => a.settings === b.settings && a.jumpers === b.jumpers && a.lifted === b.lifted;
