import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Edition } from '../../engine/walk/index.ts';
import { deskEdition } from '../proof/desk-edition.ts';
import { changesInLines, changesInWords } from './edition-changes.ts';

const HERE = new URL('../../tests/proof/', import.meta.url);
const TREE = readFileSync(new URL('sound.tree.mdx', HERE), 'utf8');
const BENCH = readFileSync(new URL('proof-bench.bench.yaml', HERE), 'utf8');

function edition(tree: string, bench = BENCH): Edition {
  const made = deskEdition('sound', { trees: { sound: tree }, benches: { 'proof-bench': bench }, figures: {}, editions: [] });
  if (!made.ok) throw new Error(JSON.stringify(made.problem));
  return made.value.edition;
}

const before = edition(TREE);

test('an edition does not differ from itself', () => {
  expect(changesInWords(before, edition(TREE))).toEqual([]);
  expect(changesInLines(before, edition(TREE))).toEqual([]);
});

test('a band, a title and a word of prose are each told, and shown in their lines', () => {
  const banded: Edition = JSON.parse(JSON.stringify(before).replace('"on":"below ', '"on":"below 1'));
  expect(changesInWords(before, banded).join(' ')).toMatch(/Step “.+”: band “below 1.+” added\. Step “.+”: band “below .+” removed\./);
  const minutes = TREE.replace(/minutes=\{(\d+)\}/, 'minutes={9}');
  expect(changesInWords(before, edition(minutes)).join(' ')).toMatch(/9 min, was \d/);
  const titled = edition(TREE.replace(/^title: (.+)$/m, 'title: Another name'));
  expect(changesInWords(before, titled)).toEqual([`The title was “${before.trees.sound?.title}”.`]);
  const [lines] = changesInLines(before, titled);
  expect(lines?.lines).toContain('+title: Another name');
  expect(lines?.lines.filter((line) => /^[-+]/.test(line))).toHaveLength(2);
});

test('what changed on a bench is told by its name', () => {
  const heavier = edition(TREE, BENCH.replace(/weight: (\d+)/, 'weight: 77'));
  expect(changesInWords(before, heavier).join()).toMatch(/^On the bench proof-bench: fault “.+” changed\.$/);
});
