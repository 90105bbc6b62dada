import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readTree } from '../read-tree.ts';
import { NO_SURROUNDINGS } from '../surroundings.ts';
import type { Tree } from '../tree.ts';
import { editFrontMatter } from './edit-front-matter.ts';
import { writeFrontMatter } from './write-front-matter.ts';

const STEPS =
  '\n\n## Try it\n\n<Look />\n\n<Next>\n\n- works: [Stop](#stop)\n- does not: [Stop](#stop)\n\n</Next>\n\n## Stop\n\n<Handoff to="the senior tech" />\n';

const RAW = `---
# Written for the crew's second season.
title: Bell   # as the customers call it
complaint: >-
  Somebody presses the button
  and nobody hears it.
benches:
  - own-bell    # the usual one
  - door-bell

facts:
    # Off the label, never guessed.
    bell-volts: { quantity: ac-voltage, ask: "Volts, on the label", usual: 16 V, from: 16 V, to: 16 V } # label
    # Measured at the panel.
    line-volts: { quantity: ac-voltage, ask: Line voltage, usual: 120 V, from: 108 V, to: 126 V }

settings:
  main-power: [on, off]
# Ask the supplier before this is changed.
recheck: try-it is works
# The end.
---`;

function read(raw: string): Tree {
  const { tree, problems } = readTree(`${raw}${STEPS}`, { file: 'trees/bell.tree.mdx', surroundings: NO_SURROUNDINGS });
  if (!tree) throw new Error(problems.map(({ message }) => message).join('\n'));
  return tree;
}

const TREE = read(RAW);
const comments = (text: string): string[] => [...text.matchAll(/#.*$/gm)].map(([comment]) => comment);
/** Edits, checks that what was written reads as what was meant, and gives the lines that went and came. */
function edited(change: (tree: Tree) => Tree): { readonly text: string; readonly gone: string[]; readonly come: string[] } {
  const after = change(TREE);
  const text = editFrontMatter(RAW, TREE, after);
  expect(read(text)).toEqual(after);
  const lines = text.split('\n');
  const old = RAW.split('\n');
  return { text, gone: old.filter((line) => !lines.includes(line)), come: lines.filter((line) => !old.includes(line)) };
}

const { 'bell-volts': bellVolts, ...otherFacts } = TREE.facts;
if (!bellVolts) throw new Error('a fact');

describe('an edit of one key changes its lines', () => {
  test.each<[string, (tree: Tree) => Tree, string[]]>([
    ['a text with a remark behind it', (tree) => ({ ...tree, title: 'Door bell' }), ['title: Door bell   # as the customers call it']],
    ['a text over several lines', (tree) => ({ ...tree, complaint: 'It hums.' }), ['complaint: It hums.']],
    [
      'a fact',
      (tree) => ({ ...tree, facts: { ...tree.facts, 'bell-volts': { ...bellVolts, usual: '12 V' } } as Tree['facts'] }),
      ['    bell-volts: { quantity: ac-voltage, ask: "Volts, on the label", usual: 12 V, from: 16 V, to: 16 V } # label'],
    ],
    [
      'the name of a fact',
      (tree) => ({ ...tree, facts: { 'button-volts': bellVolts, ...otherFacts } }),
      ['    button-volts: { quantity: ac-voltage, ask: "Volts, on the label", usual: 16 V, from: 16 V, to: 16 V } # label'],
    ],
    [
      'one more fact',
      (tree) => ({ ...tree, facts: { ...tree.facts, size: { choices: ['small', 'large'], ask: 'How big?', usual: 'small' } } }),
      ['    size: { choices: [small, large], ask: How big?, usual: small }'],
    ],
    ['a key that was not written', (tree) => ({ ...tree, meter: '2 % + 5 counts' }), ['meter: 2 % + 5 counts']],
    ['the last key', (tree) => ({ ...tree, recheck: { step: 'try-it', passes: 'does not' } }), ['recheck: try-it is does not']],
    ['another key behind it', (tree) => ({ ...tree, handoff: 'stop' }), ['handoff: stop']],
  ])('%s', (_, change, come) => {
    const now = edited(change);
    expect(now.come).toEqual(come);
    expect(comments(now.text)).toEqual(comments(RAW));
  });

  test('a list over several lines keeps what was remarked on them, above it', () => {
    const now = edited((tree) => ({ ...tree, benches: ['own-bell'] }));
    expect(now.text).toContain('\n# the usual one\nbenches: [own-bell]\n\nfacts:\n    # Off the label');
  });

  test('a fact that goes leaves the lines around it, and the last one that goes leaves what was said of it', () => {
    expect(edited((tree) => ({ ...tree, facts: otherFacts })).gone).toEqual([expect.stringContaining('bell-volts')]);
    const none = edited((tree) => ({ ...tree, facts: {} }));
    expect(none.text).toContain('# Off the label, never guessed.');
    expect(none.text).toContain('\nsettings:\n  main-power: [on, off]\n');
  });

  test('nothing changed, no byte changed', () => expect(editFrontMatter(RAW, TREE, { ...TREE })).toBe(RAW));
});

test('whatever texts come, what is written reads as what was meant, and no remark on a line of its own is lost', () => {
  const text = fc
    .string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 30 })
    .map((value) => value.trim().replace(/\s+/g, ' '))
    .filter((value) => value !== '');
  const name = fc.stringMatching(/^[a-z][a-z0-9]{0,8}$/);
  fc.assert(
    fc.property(text, text, fc.dictionary(name, text, { maxKeys: 3 }), (title, complaint, asks) => {
      const facts = Object.fromEntries(Object.entries(asks).map(([key, ask]) => [key, { choices: ['a', 'b'], ask, usual: 'a' }]));
      const after: Tree = { ...TREE, title, complaint, facts };
      const written = editFrontMatter(RAW, TREE, after);
      expect(read(written)).toEqual(read(writeFrontMatter(after)));
      const own = RAW.split('\n').filter((line) => line.trimStart().startsWith('#'));
      const now = written.split('\n').map((line) => line.trim());
      expect(own.filter((line) => !now.includes(line.trim()))).toEqual([]);
    }),
    { seed: 4, numRuns: 300 },
  );
});
