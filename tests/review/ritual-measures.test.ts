import { describe, expect, it } from 'vitest';
import { Reviewer } from '../../engine/review/index.ts';
import { beginWalk, takeEvent, viewOf, type Walk, type WalkEvent, type WalkLine, walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';

type Told = WalkEvent;

const wentOn: WalkEvent = { type: 'went-on' };

// The small edition has no bench, cautions that must be read, and a jumper.
const SMALL = walkableEdition(smallEdition());

/** Every caution that stands on the screen, each after `wait` minutes. */
function withCautions(events: readonly Told[], wait: number): readonly WalkLine[] {
  let walk: Walk = beginWalk(SMALL, 'by-hand');
  const lines: WalkLine[] = [];
  let at = 0;
  const send = (event: WalkEvent, after: number): void => {
    at += after;
    const taken = takeEvent(walk, event, { time: new Date(Date.UTC(2026, 0, 15, 9) + at * 60_000).toISOString(), mono: at * 60_000 });
    if (!taken.ok) throw new Error(`${JSON.stringify(event)}: ${JSON.stringify(taken.problem)}`);
    walk = taken.value.walk;
    lines.push(taken.value.line);
  };
  for (const event of events) {
    for (const [caution, { mustRead, read: isRead }] of viewOf(walk).cautions.entries())
      if (event.type !== 'opened' && mustRead && !isRead) send({ type: 'caution-read', caution }, wait);
    send(event, 0.5);
  }
  return lines;
}

const TO_THE_COIL: readonly Told[] = [
  { type: 'opened' },
  wentOn,
  { type: 'told', fact: 'wiring', typed: 'own' },
  wentOn,
  { type: 'read', typed: '24' },
  wentOn,
  { type: 'did' },
  { type: 'looked', saw: 'dry' },
  wentOn,
  { type: 'did' },
];

describe('cautions, by hand', () => {
  const small = new Reviewer(SMALL);
  const fast = (wait: number) => small.review(withCautions(TO_THE_COIL, wait), { only: ['fast-caution'] }).measures[0];

  // "Line voltage stands behind this panel. Work to local code.": 10 words, at 714 words a minute 0.84 s. The opening has it, and the step that turns the power off.
  it('half a second is too fast for ten words, a second is not', () => {
    expect(fast(0.5 / 60)).toMatchObject({ value: 2, evidence: [{ values: { words: 10, signal: 'warning' } }, { step: 'power-off' }] });
    expect(fast(1 / 60)).toMatchObject({ value: 0 });
  });

  it('no measure of readings without a bench', () => {
    const { measures } = small.review(withCautions(TO_THE_COIL, 1));
    for (const code of ['regret', 'redundant', 'premature', 'streak'] as const)
      expect(measures.find((each) => each.code === code)).toEqual({ code, missing: 'no-bench' });
  });
});

describe('putting back, by hand', () => {
  const small = new Reviewer(SMALL);
  const late = (events: readonly Told[]) => small.review(withCautions(events, 1), { only: ['put-back-late'] }).measures[0];
  const jumpered = TO_THE_COIL.slice(0, 7);
  const found: readonly Told[] = [{ type: 'looked', saw: 'runs' }, wentOn, { type: 'found' }, { type: 'repaired', done: true }];
  const JUMPER = 'jumper K1~K2';

  it('a jumper that the last step needed is put back in time', () => {
    const key = viewOf(walkTo(jumpered)).putBack.find(({ kind }) => kind === 'jumper')?.key ?? JUMPER;
    expect(late([...jumpered, ...found, { type: 'put-back', item: key }])).toMatchObject({ value: 0 });
  });

  // The heat call was needed for the volts at R and C and by the tree for no step after it that says so; going back to the wiring question needs no jumper.
  it('a jumper left in place over a step that does not need it is late', () => {
    const key = viewOf(walkTo(jumpered)).putBack.find(({ kind }) => kind === 'jumper')?.key ?? JUMPER;
    const left: readonly Told[] = [...jumpered, { type: 'stepped-back', to: 1 }, { type: 'read', typed: '24' }, wentOn];
    const jumped: readonly Told[] = [
      ...left,
      { type: 'jumped', tree: 'dry-pad', step: 'contact-open' },
      { type: 'found' },
      { type: 'repaired', done: true },
    ];
    expect(late([...jumped, { type: 'put-back', item: key }])).toMatchObject({ value: 1, evidence: [{ values: { item: key } }] });
  });
});

function walkTo(events: readonly Told[]): Walk {
  const lines = withCautions(events, 1);
  return lines.reduce<Walk>(
    (walk, { event, time, mono }) => {
      const taken = takeEvent(walk, event, { time, mono });
      return taken.ok ? taken.value.walk : walk;
    },
    beginWalk(SMALL, 'by-hand'),
  );
}
