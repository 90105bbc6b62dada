import { describe, expect, it } from 'vitest';
import { SAMPLE_SURROUNDINGS } from '../../tests/tree/sample-surroundings.ts';
import { readTree } from './read-tree.ts';
import type { Step, Tree } from './tree.ts';
import { writeTree } from './write-tree.ts';

const STEP: Step = { kind: 'handoff', id: 'stop', title: 'Stop', minutes: 0, while: [], cautions: [], prose: [], photos: [], to: 'The senior tech' };
const TREE: Tree = {
  name: 'a-tree',
  title: 'A tree',
  complaint: 'Something.',
  benches: [],
  facts: {},
  settings: {},
  meter: '1 % + 3 counts',
  opening: { cautions: [], prose: [] },
  steps: [STEP],
};
const written = (steps: readonly Step[], more: Partial<Tree> = {}) => writeTree({ ...TREE, ...more, steps: [...steps] }, SAMPLE_SURROUNDINGS);
const again = (text: string) => readTree(text, { file: 'a-tree.tree.mdx', surroundings: SAMPLE_SURROUNDINGS }).tree;

describe('writing a tree', () => {
  it('leaves out what goes without saying', () => {
    expect(written([STEP])).toBe(
      '---\ntitle: A tree\ncomplaint: Something.\nmeter: 1 % + 3 counts\n---\n\n## Stop\n\n<Handoff to="The senior tech" />\n',
    );
  });

  it('keeps text that YAML would take for something else as text', () => {
    const title = 'yes: [no] # "24"';
    const text = written([STEP], { title, complaint: '0x18', settings: { fan: ['on', 'off', 'null', '24'] } });
    expect(text).toContain('settings:\n  fan: [on, off, "null", "24"]\n');
    expect(again(text)).toMatchObject({ title, complaint: '0x18', settings: { fan: ['on', 'off', 'null', '24'] } });
  });

  it('keeps quotes and ampersands in attributes', () => {
    const step = { ...STEP, to: 'The "A&B" desk &amp; co' };
    const text = written([step]);
    expect(text).toContain('to="The &quot;A&amp;B&quot; desk &amp;amp; co"');
    expect(again(text)?.steps).toEqual([step]);
  });

  it('names the id where the title does not give it', () => {
    expect(written([{ ...STEP, id: 'hand-over' }])).toContain('<Handoff to="The senior tech" id="hand-over" />');
  });

  it('leads to a step by the address that the heading has where the file is shown as a page', () => {
    const look: Step = { ...STEP, kind: 'look', id: 'r-c', title: 'R & C', ways: [{ on: 'lit', to: { step: 'r-c' } }] } as Step;
    const text = written([look]);
    expect(text).toContain('- lit: [R & C](#r--c)');
    expect(again(text)?.steps[0]).toMatchObject({ id: 'r-c', ways: [{ to: { step: 'r-c' } }] });
  });

  it('takes titles of other trees from the surroundings, and their ids where it does not know them', () => {
    const act: Step = {
      ...STEP,
      kind: 'act',
      does: [],
      minutes: 1,
      ways: [{ on: 'done', to: { tree: 'no-heat', step: 'flame-proved' } }],
      cannot: { tree: 'other', step: 'a-step' },
    } as Step;
    const text = written([act]);
    expect(text).toContain('- done: [Flame proved](no-heat.tree.mdx#flame-proved)\n- cannot: [a step](other.tree.mdx#a-step)');
  });

  it('writes no line that a reader of MDX would take for code', () => {
    const prose: Step['prose'] = [{ type: 'paragraph', children: [{ type: 'text', value: 'import duties {and} <tags>\nexport too' }] }];
    const text = written([{ ...STEP, prose }]);
    expect(text).not.toMatch(/^(import|export)/m);
    expect(again(text)?.steps[0]?.prose).toEqual(prose);
  });
});
