import { expect, it } from 'vitest';
import { shippedEdition, taskOn } from '../../tests/drill/drill-grounds.ts';
import { drillFileName, drillFileText, drillFileWords, readDrillFile } from './drill-file.ts';

const TREE = 'condensate-or-float-switch-holds-off';
const task = taskOn(TREE, 'condensate-safeties', { fault: 'pump-dead', note: 'Listen first.' });
const { edition } = shippedEdition(TREE).compiled;

it('a drill is read back as it was written, with who gave it', () => {
  expect(readDrillFile(drillFileText(task, edition, 'T. Rowan'))).toEqual({ ok: true, value: { task, edition, by: 'T. Rowan' } });
  expect(drillFileName(task)).toBe('drill-1.ohmward-drill.json');
});

it.each([
  ['not JSON', '{', 'not-json'],
  ['something else', '{}', 'not-a-drill'],
  ['no edition', JSON.stringify({ format: 'ohmward-drill/1', task, edition: {} }), 'not-an-edition'],
  ['another edition', drillFileText({ ...task, edition: '0'.repeat(64) }, edition), 'other-edition'],
])('%s is told', (_, text, code) => {
  const read = readDrillFile(text);
  expect(read).toMatchObject({ ok: false, problem: { code } });
  if (!read.ok) expect(drillFileWords(read.problem)).toMatch(/\.$/);
});
