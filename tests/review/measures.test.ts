import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { namesOf, parseBench } from '../../engine/bench/index.ts';
import { type MeasureCode, measureWords, Reviewer, type ReviewOptions, walkStays } from '../../engine/review/index.ts';
import {
  ExactSearch,
  InformationGain,
  matrixProblem,
  planMinutes,
  planOf,
  Rollout,
  readMatrix,
  SuspectSets,
  stateMinutes,
} from '../../engine/suspects/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { readTree } from '../../engine/tree/index.ts';
import {
  beginWalk,
  buildEdition,
  takeEvent,
  type Walk,
  type WalkableEdition,
  type WalkEvent,
  type WalkLine,
  walkableEdition,
} from '../../engine/walk/index.ts';

// Three contacts and a load in a row on 24 V; a terminal after each. The first contact is open on half of all calls, each other part on a sixth.
const BENCH = {
  title: 'Three contacts in a row',
  terminals: ['R', 'A', 'B', 'D', 'C'],
  settings: { call: ['on', 'off'] },
  parts: {
    supply: { kind: 'source', between: ['R', 'C'], volts: '24 V', ohms: '1 ohm' },
    bond: { kind: 'wire', between: ['C', 'ground'], gauge: '18 AWG', length: '1 ft' },
    first: { kind: 'contact', between: ['R', 'A'], 'closed-when': 'call is on' },
    second: { kind: 'contact', between: ['A', 'B'], 'closed-when': 'call is on' },
    third: { kind: 'contact', between: ['B', 'D'], 'closed-when': 'call is on' },
    coil: { kind: 'coil', between: ['D', 'C'], rated: '24 V', va: '8 VA', resistance: '16 ohm' },
  },
  signs: { runs: 'coil is pulled-in' },
  faults: {
    'first-open': { part: 'first', becomes: 'stuck-open', weight: 3 },
    'second-open': { part: 'second', becomes: 'stuck-open', weight: 1 },
    'third-open': { part: 'third', becomes: 'stuck-open', weight: 1 },
    'coil-open': { part: 'coil', becomes: 'open', weight: 1 },
  },
};

// Minutes by the tree: look 1, D 2, B 2, A 2. From the load back, which is not the best order: A alone tells half of all calls.
const TREE = `---
title: Load does not run
complaint: The load stands still on a call.
benches: [three-contacts]
meter: 1 % + 3 counts
recheck: load-runs is runs
---

<Caution signal="notice" about="control-circuit">

Work to local code and the maker's instructions.

</Caution>

## Load runs

<Look at="the load" sign="runs" minutes={1} />

<Next>

- runs: [Nothing wrong](#nothing-wrong)
- stands still: [At D](#at-d)

</Next>

## At D

<Reading takes="ac-voltage" across="D to C" minutes={2} />

<Next>

- below 5 V: [At B](#at-b)
- otherwise: [Coil open](#coil-open)
- cannot: [Call the senior tech](#call-the-senior-tech)

</Next>

## At B

<Reading takes="ac-voltage" across="B to C" minutes={2} />

<Next>

- below 5 V: [At A](#at-a)
- otherwise: [Third open](#third-open)

</Next>

## At A

<Reading takes="ac-voltage" across="A to C" minutes={2} />

<Next>

- below 5 V: [First open](#first-open)
- otherwise: [Second open](#second-open)

</Next>

## First open

<Finding faults="first-open" />

<Repair>

Fit a new contact.

</Repair>

## Second open

<Finding faults="second-open" />

<Repair>

Fit a new contact.

</Repair>

## Third open

<Finding faults="third-open" />

<Repair>

Fit a new contact.

</Repair>

## Coil open

<Finding faults="coil-open" />

<Repair>

Fit a new coil.

</Repair>

## Nothing wrong

<Finding faults="none" />

## Call the senior tech

<Handoff to="the senior tech" />
`;

function edition(): WalkableEdition {
  const bench = parseBench(BENCH);
  if (!bench.ok) throw new Error(JSON.stringify(bench.problems));
  const { tree, problems } = readTree(TREE, {
    file: 'load.tree.mdx',
    surroundings: { benches: { 'three-contacts': namesOf(bench.bench) }, trees: {}, functions: TRADE_FUNCTIONS },
  });
  if (!tree || problems.some(({ severity }) => severity === 'error')) throw new Error(JSON.stringify(problems));
  const built = buildEdition('load', { trees: { load: tree }, benches: { 'three-contacts': bench.bench }, figures: {} });
  if (!built.ok) throw new Error(JSON.stringify(built.problem));
  return walkableEdition(built.value);
}

const THREE = edition();

type Told = WalkEvent | { readonly wait: number };

/** A log whose lines stand a minute apart, or as told: `{ wait: 0.5 }` before an event. Every event must be taken. */
function logOf(on: WalkableEdition, events: readonly Told[]): readonly WalkLine[] {
  let walk: Walk = beginWalk(on, 'by-hand');
  const lines: WalkLine[] = [];
  let at = 0;
  let wait = 1;
  for (const event of events) {
    if ('wait' in event) {
      wait = event.wait;
      continue;
    }
    at += lines.length === 0 ? 0 : wait;
    wait = 1;
    const time = new Date(Date.UTC(2026, 0, 15, 9) + at * 60_000).toISOString();
    const taken = takeEvent(walk, event, { time, mono: at * 60_000 });
    if (!taken.ok) throw new Error(`${JSON.stringify(event)}: ${JSON.stringify(taken.problem)}`);
    walk = taken.value.walk;
    lines.push(taken.value.line);
  }
  return lines;
}

const wentOn: WalkEvent = { type: 'went-on' };
const looked = (saw: string): readonly WalkEvent[] => [{ type: 'looked', saw }, wentOn];
const read = (typed: string): readonly WalkEvent[] => [{ type: 'read', typed }, wentOn];
const open: readonly WalkEvent[] = [{ type: 'opened', by: 'Kim' }, wentOn];
const closing = (saw = 'runs'): readonly WalkEvent[] => [
  { type: 'found' },
  { type: 'repaired', done: true },
  { type: 'rechecked', saw },
  { type: 'closed' },
];

const reviewer = new Reviewer(THREE);

function measured(code: MeasureCode, events: readonly Told[], options: ReviewOptions = {}) {
  const [measure] = reviewer.review(logOf(THREE, events), { ...options, only: [code] }).measures;
  if (!measure) throw new Error(code);
  if ('value' in measure) for (const line of measure.evidence) expect(measureWords(code).says(line)).not.toMatch(/undefined|NaN/);
  return measure;
}

/** Looks, D, B, A: the tree's own way to the first contact. */
const FIRST_OPEN: readonly Told[] = [...open, ...looked('stands still'), ...read('0.0'), ...read('0.0'), ...read('0.0'), ...closing()];

describe('minutes and stays, by hand', () => {
  it('count a minute a line', () => expect(measured('minutes', FIRST_OPEN)).toMatchObject({ value: 13 }));

  // 13 lines after the first; the pause takes 30 of them out.
  it('leave a pause out', () => {
    const paused: readonly Told[] = [...open, { type: 'paused' }, { wait: 30 }, { type: 'resumed' }, ...FIRST_OPEN.slice(2)];
    expect(measured('minutes', paused)).toMatchObject({ value: 14, evidence: [{ values: { paused: 30 } }] });
  });

  it('have none before the call is closed', () =>
    expect(measured('minutes', FIRST_OPEN.slice(0, 8))).toEqual({ code: 'minutes', missing: 'not-closed' }));

  // Two lines a step; the finding's stay goes on over found, repaired, rechecked and closed.
  it('give every stay its own', () => {
    const stays = walkStays(THREE, logOf(THREE, FIRST_OPEN));
    expect(stays.map(({ step, minutes, on }) => [step, minutes, on])).toEqual([
      ['load-runs', 2, 'stands still'],
      ['at-d', 2, 'below 5 V'],
      ['at-b', 2, 'below 5 V'],
      ['at-a', 2, 'below 5 V'],
      ['first-open', 4, 'found'],
    ]);
  });

  it('see a stepping back, and the step again', () => {
    const stays = walkStays(
      THREE,
      logOf(THREE, [...open, ...looked('stands still'), ...read('0.0'), { type: 'stepped-back', to: 1 }, ...read('24.1')]),
    );
    expect(stays.map(({ step, steppedBack, on }) => [step, steppedBack, on])).toEqual([
      ['load-runs', false, 'stands still'],
      ['at-d', false, 'below 5 V'],
      ['at-b', true, undefined],
      ['at-d', false, 'otherwise'],
      ['coil-open', false, undefined],
    ]);
  });
});

describe('regret, by hand', () => {
  // The walk: look 1 + D 2 + B 2 + A 2 = 7. The best order looks (1) and then reads A (2), which tells the first contact at once: 3. 7 - 3 = 4.
  it('is what the tree’s order cost over the best one', () => {
    const measure = measured('regret', FIRST_OPEN);
    expect(measure).toMatchObject({ value: 4 });
    expect('evidence' in measure && measure.evidence.map(({ values }) => values?.minutes)).toEqual([1, 2, 2, 2]);
  });

  // Closed as the first contact, and it was the second after all. To it the best order reads A and B (or D): 1 + 2 + 2 = 5. 7 - 5 = 2.
  it('is against the fault that it was', () =>
    expect(measured('regret', FIRST_OPEN, { confirmation: { held: false, fault: 'second-open' } })).toMatchObject({ value: 2 }));

  it('is not there where it came back and nobody knows why', () =>
    expect(measured('regret', FIRST_OPEN, { confirmation: { held: false } })).toEqual({ code: 'regret', missing: 'fault-not-known' }));

  // classic_6x5 (Pattipati & Alexandridis 1990, from ../shared/reference/diagnosis.md): the best order takes 2.18 on average, that by information gain 2.86;
  // the mean regret of whoever goes by information gain is 0.68, fault by fault through the function that a walk's regret is made with.
  it('agrees with the published matrix', () => {
    const text = readFileSync(new URL('../outside/classic_6x5.csv', import.meta.url), 'utf8');
    const matrix = readMatrix(text);
    if (!matrix.ok) throw new Error('classic_6x5');
    const problem = matrixProblem(matrix.value);
    const sets = new SuspectSets(problem);
    const all = sets.whole();
    const exact = new ExactSearch(sets, 10_000);
    exact.minutes(all);
    const best = planOf(sets, { test: (set) => exact.test(set) }, all);
    const greedy = planOf(sets, new InformationGain(sets), all);
    const mean = (of: (state: number) => number): number => [...problem.weights].reduce((sum, weight, state) => sum + weight * of(state), 0);
    expect(mean((state) => stateMinutes(problem, greedy, state) - stateMinutes(problem, best, state))).toBeCloseTo(0.68, 9);
    expect(planMinutes(problem, best)).toBeCloseTo(2.18, 9);
    expect(planMinutes(problem, planOf(sets, new Rollout(sets, new InformationGain(sets)), all))).toBeCloseTo(2.18, 9);
  });
});

describe('readings, by hand', () => {
  it('none told nothing on the tree’s own way', () => expect(measured('redundant', FIRST_OPEN)).toMatchObject({ value: 0 }));

  // D read as dead leaves the three contacts; going back and reading it again can only show the same.
  it('the same reading again tells nothing', () => {
    const again: readonly Told[] = [
      ...open,
      ...looked('stands still'),
      ...read('0.0'),
      { type: 'jumped', tree: 'load', step: 'at-d' },
      ...read('0.0'),
      ...read('0.0'),
      ...read('0.0'),
      ...closing(),
    ];
    expect(measured('redundant', again)).toMatchObject({ value: 1, evidence: [{ step: 'at-d' }] });
  });

  // The first was not it, and the walk begins anew: that the load stands still is known, and is not held against who looks, as the tree asks it.
  it('a look at the complaint is no reading that told nothing, at the beginning or after a repair that did not help', () => {
    const anew: readonly Told[] = [...FIRST_OPEN.slice(0, -2), { type: 'rechecked', saw: 'stands still' }, ...looked('stands still'), ...read('0.0')];
    const found = measured('redundant', anew);
    const steps = 'value' in found ? found.evidence.map(({ step }) => step) : undefined;
    expect(steps).toBeDefined();
    expect(steps).not.toContain(THREE.compiled.root.steps[0]?.id);
    expect(logOf(THREE, anew).filter(({ event }) => event.type === 'looked')).toHaveLength(2);
  });

  // After D all three contacts are left, 3 : 1 : 1; naming the first is a guess that A could have settled.
  it('a finding by guess is too early, by the readings is not', () => {
    const guess: readonly Told[] = [
      ...open,
      ...looked('stands still'),
      ...read('0.0'),
      { type: 'jumped', tree: 'load', step: 'first-open' },
      ...closing(),
    ];
    expect(measured('premature', guess)).toMatchObject({ value: 1, evidence: [{ step: 'first-open', values: { said: 'first-open' } }] });
    expect(measured('premature', FIRST_OPEN)).toMatchObject({ value: 0 });
    expect(measured('skipped', guess)).toMatchObject({ value: 1, evidence: [{ step: 'at-b', values: { to: 'first-open' } }] });
  });

  // B dead leaves the first and the second. Reading D again can only show what the first (the favourite) shows; A tells them apart.
  it('two readings in a row that could only confirm are a streak of two', () => {
    const round: readonly Told[] = [
      ...open,
      ...looked('stands still'),
      ...read('0.0'),
      ...read('0.0'),
      { type: 'jumped', tree: 'load', step: 'at-d' },
      ...read('0.0'),
      ...read('0.0'),
      ...read('0.0'),
      ...closing(),
    ];
    expect(measured('streak', round)).toMatchObject({ value: 2, evidence: [{ step: 'at-d' }, { step: 'at-b' }] });
    expect(measured('streak', FIRST_OPEN)).toMatchObject({ value: 0 });
  });
});

describe('what was passed over, by hand', () => {
  it('a jump that was proposed is no skip', () => {
    const proposed: readonly Told[] = [
      ...open,
      ...looked('stands still'),
      { type: 'jumped', tree: 'load', step: 'at-a', why: 'suggested: tells the first from the rest' },
      ...read('0.0'),
      ...closing(),
    ];
    expect(measured('skipped', proposed)).toMatchObject({ value: 0 });
  });

  it.each([
    ['without a word', undefined, 1],
    ['with a reason', 'terminal D is behind the blower', 0],
  ] as const)('cannot %s', (_, why, skips) => {
    const cannot: readonly Told[] = [...open, ...looked('stands still'), { type: 'could-not', ...(why !== undefined && { why }) }];
    expect(measured('could-not', cannot)).toMatchObject({ value: 1, evidence: [{ step: 'at-d' }] });
    expect(measured('skipped', cannot)).toMatchObject({ value: skips });
  });

  // The meter's 1 % + 3 counts around 5.0 V is 4.65 to 5.35: it reaches both bands.
  it('a reading on the edge that was gone on from', () => {
    const edge: readonly Told[] = [...open, ...looked('stands still'), { type: 'read', typed: '5.0' }, { type: 'went-on', tooClose: true }];
    expect(measured('accepted-too-close', edge)).toMatchObject({ value: 1, evidence: [{ step: 'at-d', values: { on: 'otherwise' } }] });
    expect(measured('accepted-too-close', FIRST_OPEN)).toMatchObject({ value: 0 });
  });
});

describe('closing, by hand', () => {
  it('rechecked, and left open after the repair', () => {
    expect(measured('not-rechecked', FIRST_OPEN)).toMatchObject({ value: 0 });
    expect(measured('not-rechecked', FIRST_OPEN.slice(0, -2))).toMatchObject({ value: 1 });
    expect(measured('not-rechecked', FIRST_OPEN.slice(0, 8))).toEqual({ code: 'not-rechecked', missing: 'not-applicable' });
  });
});
