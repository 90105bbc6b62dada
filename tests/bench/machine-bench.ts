import { assign, initialTransition, setup, transition } from 'xstate';
import { beginWalk, replayLog, takeEvent, type Walk, type WalkEvent, type WalkLine, walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { type Bench, benchRow } from './bench-row.ts';
import { medianTimes } from './median-times.ts';

type PlainEvent = { readonly type: 'read'; readonly volts: number } | { readonly type: 'went-on' } | { readonly type: 'back' };

/** What a walk's machine would be with nothing kept safe: two steps, a guard for each band, the path in the context, no log. */
const plainMachine = setup({
  types: { context: {} as { path: readonly string[]; volts: number }, events: {} as PlainEvent },
  guards: {
    low: ({ context }) => context.volts < 18,
    good: ({ context }) => context.volts >= 18 && context.volts < 30,
  },
  actions: {
    keep: assign(({ context, event }) => ({ ...context, volts: event.type === 'read' ? event.volts : context.volts })),
    step: assign(({ context }) => ({ ...context, path: [...context.path, 'power'] })),
  },
}).createMachine({
  context: { path: [], volts: 0 },
  initial: 'power',
  states: {
    power: {
      initial: 'work',
      states: {
        work: { on: { read: { target: 'verdict', actions: 'keep' } } },
        verdict: {
          on: {
            read: { target: 'verdict', actions: 'keep', reenter: true },
            'went-on': [
              { guard: 'low', target: '#weak', actions: 'step' },
              { guard: 'good', target: '#good', actions: 'step' },
              { target: '#wrong', actions: 'step' },
            ],
          },
        },
      },
    },
    weak: { id: 'weak', on: { back: 'power' } },
    good: { id: 'good', on: { back: 'power' } },
    wrong: { id: 'wrong', on: { back: 'power' } },
  },
});

const edition = walkableEdition(smallEdition());

const stamp = (n: number) => ({ time: new Date(Date.UTC(2026, 0, 15, 9, 0, n)).toISOString(), mono: n * 1000 });

/** A walk after these events, each of which must be taken, and its log. */
function walked(events: readonly WalkEvent[]): { walk: Walk; lines: WalkLine[] } {
  let walk = beginWalk(edition, 'bench');
  const lines: WalkLine[] = [];
  for (const event of events) {
    const taken = takeEvent(walk, event, stamp(lines.length));
    if (!taken.ok) throw new Error(`${event.type} was refused: ${JSON.stringify(taken.problem)}`);
    walk = taken.value.walk;
    lines.push(taken.value.line);
  }
  return { walk, lines };
}

const TO_POWER: readonly WalkEvent[] = [
  { type: 'opened' },
  { type: 'caution-read', caution: 0 },
  { type: 'went-on' },
  { type: 'told', fact: 'wiring', typed: 'own' },
  { type: 'went-on' },
];

const EVENTS_A_TURN = 100;
const LOG_LINES = 2000;

const bench: Bench = async () => {
  const { walk } = walked(TO_POWER);
  const [plain] = initialTransition(plainMachine);
  const event = medianTimes(
    () => {
      let last: unknown;
      for (let n = 0; n < EVENTS_A_TURN; n += 1) last = takeEvent(walk, { type: 'read', typed: '27.4' }, stamp(n));
      return last;
    },
    () => {
      let last: unknown;
      for (let n = 0; n < EVENTS_A_TURN; n += 1) last = transition(plainMachine, plain, { type: 'read', volts: 27.4 });
      return last;
    },
    { turns: 41 },
  );

  const readings = Array.from({ length: LOG_LINES - TO_POWER.length }, (_, n): WalkEvent => ({ type: 'read', typed: `${20 + (n % 100) / 10}` }));
  const { lines } = walked([...TO_POWER, ...readings]);
  const replay = medianTimes(
    () => replayLog(edition, lines),
    () => {
      let [snapshot] = initialTransition(plainMachine);
      for (let n = 0; n < LOG_LINES; n += 1) [snapshot] = transition(plainMachine, snapshot, { type: 'read', volts: 20 + (n % 100) / 10 });
      return snapshot;
    },
    { turns: 11, warmUp: 2 },
  );
  if (replayLog(edition, lines).problems.length > 0) throw new Error('The log of the bench does not replay.');

  return [
    benchRow(
      'a reading: checked, judged, hashed into the log',
      event.ours / EVENTS_A_TURN,
      event.other / EVENTS_A_TURN,
      'a raw xstate transition of a small machine',
    ),
    benchRow(`replay of a log of ${LOG_LINES} lines`, replay.ours, replay.other, `${LOG_LINES} raw xstate transitions, nothing checked`),
  ];
};

export default bench;
