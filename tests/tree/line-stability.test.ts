import { describe, expect, it } from 'vitest';
import { readTree, type Step, type Tree, writeTree } from '../../engine/tree/index.ts';
import { SAMPLE_SURROUNDINGS } from './sample-surroundings.ts';
import { SAMPLE } from './sample-tree.ts';

function sample(): Tree {
  const { tree } = readTree(SAMPLE, { file: 'sample.tree.mdx', surroundings: SAMPLE_SURROUNDINGS });
  if (!tree) throw new Error('The sample does not read.');
  return tree;
}

/** Lines of the text before and after an edit that the other does not have, as a diff would show them. */
function changed(edit: (tree: Tree) => Tree): { readonly gone: readonly string[]; readonly come: readonly string[] } {
  const before = SAMPLE.split('\n');
  const after = writeTree(edit(sample()), SAMPLE_SURROUNDINGS).split('\n');
  let head = 0;
  while (head < before.length && before[head] === after[head]) head += 1;
  let tail = 0;
  while (tail < before.length - head && tail < after.length - head && before.at(-1 - tail) === after.at(-1 - tail)) tail += 1;
  return { gone: before.slice(head, before.length - tail), come: after.slice(head, after.length - tail) };
}

const onStep = (id: string, edit: (step: Step) => Step) => (tree: Tree) => ({
  ...tree,
  steps: tree.steps.map((step) => (step.id === id ? edit(step) : step)),
});

describe('an edit of the model changes only its own lines', () => {
  it('of one attribute', () => {
    expect(changed(onStep('coil-ohms', (step) => ({ ...step, minutes: 3 })))).toEqual({
      gone: ['<Reading takes="resistance" across="V1 to C" while="main-power off" />'],
      come: ['<Reading takes="resistance" across="V1 to C" while="main-power off" minutes={3} />'],
    });
  });

  it('of one band', () => {
    const edit = onStep('power-at-r-and-c', (step) =>
      step.kind === 'reading' ? { ...step, ways: step.ways.map((way) => (way.on === 'below 2 V' ? { ...way, on: 'below 3 V' } : way)) } : step,
    );
    expect(changed(edit)).toEqual({
      gone: ['- below 2 V: [Switch the power off](#switch-the-power-off)'],
      come: ['- below 3 V: [Switch the power off](#switch-the-power-off)'],
    });
  });

  it('of one fact', () => {
    const edit = (tree: Tree): Tree => ({
      ...tree,
      facts: { ...tree.facts, 'line-volts': { quantity: 'ac-voltage', ask: 'Line voltage at the unit', usual: '120 V', from: '100 V', to: '126 V' } },
    });
    expect(changed(edit).gone).toHaveLength(1);
    expect(changed(edit).come).toEqual([
      '  line-volts: { quantity: ac-voltage, ask: Line voltage at the unit, usual: 120 V, from: 100 V, to: 126 V }',
    ]);
  });

  it('of one line of a paragraph', () => {
    const prose: Step['prose'] = [{ type: 'paragraph', children: [{ type: 'text', value: 'The winding is broken.' }] }];
    expect(changed(onStep('the-coil-is-open', (step) => ({ ...step, prose })))).toEqual({
      gone: ['No current can flow through it.'],
      come: ['The winding is broken.'],
    });
  });

  it('of a title: its heading, its id, and the links that lead to it', () => {
    const { gone, come } = changed(onStep('hand-over', (step) => ({ ...step, title: 'Stop here' })));
    const both = gone.map((line, i) => [line, come[i]]).filter(([a, b]) => a !== b);
    expect(gone).toHaveLength(come.length);
    expect(both.slice(0, 2)).toEqual([
      ['- 2 V to 85 % of coil-rated: [Hand over](#hand-over)', '- 2 V to 85 % of coil-rated: [Stop here](#hand-over)'],
      ['- above 30 V: [Hand over](#hand-over)', '- above 30 V: [Stop here](#hand-over)'],
    ]);
    expect(both.slice(-2)).toEqual([
      ['## Hand over', '## Stop here'],
      ['<Handoff to="The senior tech" />', '<Handoff to="The senior tech" id="hand-over" />'],
    ]);
  });

  it('of a step that is added: nothing is taken away', () => {
    const added: Step = {
      kind: 'handoff',
      id: 'gas-smell',
      title: 'Gas smell',
      minutes: 0,
      while: [],
      cautions: [],
      prose: [],
      photos: [],
      to: 'The gas supplier',
    };
    expect(changed((tree) => ({ ...tree, steps: [...tree.steps.slice(0, 3), added, ...tree.steps.slice(3)] }))).toEqual({
      gone: [],
      come: ['Gas smell'].flatMap((title) => [`## ${title}`, '', '<Handoff to="The gas supplier" />', '']),
    });
  });
});
