import { expect, test } from 'vitest';
import type { FactSpec, Step, Tree } from '../../engine/tree/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { cautionsByStep, factsOnSheet, sheetOf } from './sheet-rows.ts';

const tree = smallEdition().trees['dry-pad'] as Tree;
const common = { id: 'a', title: 'A', minutes: 1, while: [], cautions: [], prose: [], photos: [], ways: [] };
const facts: Record<string, FactSpec> = {
  'coil-rated': { quantity: 'ac-voltage', ask: 'Coil voltage', usual: '24 V', from: '24 V', to: '24 V' },
  outdoor: { quantity: 'temperature', ask: 'Outdoor temperature', usual: '32 °F', from: '0 °F', to: '45 °F' },
  unused: { quantity: 'length', ask: 'Cable', usual: '40 ft', from: '10 ft', to: '60 ft' },
};
const withSteps = (...steps: Step[]): Tree => ({ ...tree, steps: [...steps, ...tree.steps] });

test('every step of the tree stands on its sheet once, ends apart, by the numbers of the document', () => {
  const { rows, ends } = sheetOf(tree, tree.facts, 200);
  expect([...rows, ...ends].map(({ number }) => number).sort((a, b) => a - b)).toEqual(tree.steps.map((_, index) => index + 1));
  expect(ends.every(({ step }) => step.kind === 'finding' || step.kind === 'handoff')).toBe(true);
  for (const { number, step } of [...rows, ...ends]) expect(tree.steps[number - 1]?.id).toBe(step.id);
});

test('a way on leads to the number of its step', () => {
  const { rows, ends } = sheetOf(tree, tree.facts, 200);
  const numbers = new Map([...rows, ...ends].map(({ number, step }) => [number, step.title]));
  const ways = rows.flatMap((row) => row.ways);
  expect(ways.length).toBeGreaterThan(5);
  for (const { to } of ways) if (to.tree === undefined) expect(numbers.get(to.number ?? 0)).toBe(to.title);
});

test('bands have the numbers of the usual house, marked where another house has others', () => {
  const target = { step: tree.steps[0]?.id ?? '' };
  const other = { step: tree.steps[1]?.id ?? '' };
  const ways = [
    { on: 'below 85 % of coil-rated', to: target },
    { on: '85 % of coil-rated to 30 V', to: other },
    { on: 'above 30 V', to: target },
  ];
  const volts: Step = { ...common, kind: 'reading', takes: 'ac-voltage', across: ['coil-hot', 'C'], input: 'low', ways };
  const [row] = sheetOf(withSteps(volts), facts, 200).rows;
  expect(row).toMatchObject({ setting: 'AC volts, low impedance', place: 'red coil hot, black C' });
  expect(row?.ways.flatMap(({ on }) => on.map(({ text, follows }) => [text, follows]))).toEqual([
    ['below 20.4 V', false],
    ['20.4 V to 30 V', false],
    ['above 30 V', false],
  ]);
  const ohms: Step = {
    ...common,
    kind: 'reading',
    takes: 'resistance',
    across: ['S1', 'S2'],
    ways: [{ on: 'below ntc(10 kohm, type-2, outdoor)', to: target }],
  };
  const [cold] = sheetOf(withSteps(ohms), facts, 200).rows;
  // 32 650 Ω at 0 °C, the published tables of this curve in tests/outside/thermistor-tables.csv.
  expect(cold?.ways[0]?.on).toEqual([{ text: expect.stringMatching(/^below 32\.[67]\d* kΩ$/), follows: true }]);
});

test('ways that follow each other to the same step are one line', () => {
  const to = { step: tree.steps[0]?.id ?? '' };
  const ohms: Step = {
    ...common,
    kind: 'reading',
    takes: 'resistance',
    across: ['A', 'B'],
    ways: [
      { on: 'below 5 ohm', to: { step: tree.steps[1]?.id ?? '' } },
      { on: 'above 5 ohm', to },
      { on: 'open', to },
    ],
  };
  expect(sheetOf(withSteps(ohms), facts, 200).rows[0]?.ways.map(({ on }) => on.map(({ text }) => text))).toEqual([
    ['below 5 Ω'],
    ['above 5 Ω', 'open'],
  ]);
});

test('an act is told as what is done, and a computed number with its value', () => {
  const act: Step = {
    ...common,
    kind: 'act',
    does: [{ do: 'turn', setting: 'main-power', state: 'off' }, { do: 'prove-meter' }, { do: 'lift', lead: 'coil-hot' }],
    computed: [{ shows: 'Lost', by: '50 % of coil-rated' }],
    while: [{ setting: 'heat-call', state: 'on' }],
  };
  expect(sheetOf(withSteps(act), facts, 200).rows[0]).toMatchObject({
    setting: 'Do',
    place: 'main power off; prove the meter; lift coil hot',
    held: 'heat call on',
    computed: [{ shows: 'Lost', text: '12 V' }],
  });
});

test('only the facts that a number or a step needs are on it', () => {
  const asks: Step = { ...common, kind: 'ask', fact: 'outdoor' };
  const only: Tree = { ...tree, steps: [asks] };
  expect(factsOnSheet(only, facts)).toEqual(['outdoor']);
});

test('a caution that two steps have in the same words stands once, with both numbers', () => {
  const caution = { signal: 'warning', about: 'gas', prose: [{ type: 'paragraph', children: [{ type: 'text', value: 'Smell first.' }] }] } as const;
  const careful = (id: string): Step => ({ ...common, id, kind: 'act', does: [], cautions: [{ ...caution, prose: [...caution.prose] }] }) as Step;
  const [found] = cautionsByStep({ ...tree, steps: [careful('a'), { ...common, id: 'b', kind: 'act', does: [] }, careful('c')] });
  expect(found?.numbers).toEqual([1, 3]);
});
