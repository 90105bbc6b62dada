import { describe, expect, test } from 'vitest';
import { renameStep } from './rename-step.ts';
import { addStep, changeStep, moveStep, removeStep } from './step-edits.ts';
import { NO_BENCHES, readOrThrow, shippedTree } from './testing/shipped-tree.ts';
import { treeSession, withTree } from './tree-session.ts';

const NAME = 'no-water-at-the-pad';
const shipped = shippedTree(NAME);
const session = treeSession(shipped.text, shipped.tree, shipped.places);

/** Lines of the second text that the first has not, as a multiset. */
function newLines(before: string, after: string): string[] {
  const left = before.split('\n');
  return after.split('\n').filter((line) => {
    const at = left.indexOf(line);
    if (at !== -1) left.splice(at, 1);
    return at === -1;
  });
}

const again = (text: string) => readOrThrow(text, NAME).tree;

describe('an edit of the tree', () => {
  test('that changes nothing leaves every byte', () => expect(withTree(session, shipped.tree, NO_BENCHES).text).toBe(shipped.text));

  test('changes only its lines', () => {
    const tree = changeStep(shipped.tree, 'coil-resistance', (step) => ({ ...step, minutes: 7 }));
    const { text } = withTree(session, tree, NO_BENCHES);
    expect(newLines(shipped.text, text)).toEqual([expect.stringContaining('minutes={7}')]);
    expect(again(text)).toEqual(tree);
  });

  test('leaves steps as they are written that it is not about, canonical or not', () => {
    const loose = shipped.text.replace(/^- shut: /m, '*   shut: ').replace('## Supply cock shut\n\n', '## Supply cock shut\n\n\n');
    const read = readOrThrow(loose, NAME);
    const tree = changeStep(read.tree, 'coil-resistance', (step) => ({ ...step, minutes: 7 }));
    const { text } = withTree(treeSession(loose, read.tree, read.places), tree, NO_BENCHES);
    expect(text).toContain('## Supply cock shut\n\n\n');
    expect(newLines(loose, text)).toHaveLength(1);
  });

  test('that renames a step rewrites the links to it and no other lines', () => {
    const renamed = renameStep(shipped.tree, 'call-the-senior-tech', 'Ring the shop');
    if (!renamed.ok) throw new Error('renamed');
    const { text } = withTree(session, renamed.value.tree, NO_BENCHES);
    const changed = newLines(shipped.text, text);
    expect(changed.length).toBeGreaterThan(3);
    for (const line of changed) expect(line).toMatch(/Ring the shop|ring-the-shop/);
    expect(text).not.toContain('call-the-senior-tech');
    expect(again(text)).toEqual(renamed.value.tree);
  });

  test('can follow another at once, before the text was read again', () => {
    let tree = addStep(shipped.tree, 'reading', 'coil-resistance').tree;
    let now = withTree(session, tree, NO_BENCHES);
    tree = moveStep(tree, 'new-reading', 3);
    now = withTree(now, tree, NO_BENCHES);
    tree = changeStep(tree, 'new-reading', (step) => ({ ...step, minutes: 3 }));
    now = withTree(now, tree, NO_BENCHES);
    expect(again(now.text)).toEqual(tree);
    now = withTree(now, removeStep(tree, 'new-reading').tree, NO_BENCHES);
    expect(now.text).toBe(shipped.text);
  });

  test('of the front matter leaves the steps, and a moved last step keeps its distance', () => {
    const titled = withTree(session, { ...shipped.tree, title: 'Dry pad' }, NO_BENCHES);
    expect(newLines(shipped.text, titled.text)).toEqual(['title: Dry pad']);
    const moved = moveStep(shipped.tree, shipped.tree.steps.at(-1)?.id ?? '', -2);
    expect(again(withTree(session, moved, NO_BENCHES).text)).toEqual(moved);
  });

  test('of the front matter keeps what is remarked in it, and the opening as it is written', () => {
    const remarked = shipped.text
      .replace('title: No water at the pad', '# Second season.\ntitle: No water at the pad # as customers call it')
      .replace('Before you start, have heat running', 'Before you start,\nhave heat running');
    const read = readOrThrow(remarked, NAME);
    const { text } = withTree(treeSession(remarked, read.tree, read.places), { ...read.tree, title: 'Dry pad', meter: '2 % + 5 counts' }, NO_BENCHES);
    expect(newLines(remarked, text)).toEqual(['title: Dry pad # as customers call it', 'meter: 2 % + 5 counts']);
  });

  test('keeps the line ends of the file', () => {
    const windows = shipped.text.replaceAll('\n', '\r\n');
    const read = readOrThrow(windows, NAME);
    const tree = changeStep(read.tree, 'coil-resistance', (step) => ({ ...step, minutes: 7 }));
    const { text } = withTree(treeSession(windows, read.tree, read.places), tree, NO_BENCHES);
    expect(text.replaceAll('\r\n', '')).not.toContain('\n');
    expect(newLines(windows, text)).toHaveLength(1);
  });
});
