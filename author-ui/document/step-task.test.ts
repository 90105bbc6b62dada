import { expect, test } from 'vitest';
import type { Step, Tree } from '../../engine/tree/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { heldText, readingNotes, taskLines } from './step-task.ts';

const tree = smallEdition().trees['dry-pad'] as Tree;
const step = (id: string): Step => tree.steps.find((one) => one.id === id) as Step;

test.each([
  ['power', ['AC volts: red lead on R, black on C']],
  ['close-by-hand', ['Jumper K1 to K2']],
  ['power-off', ['Turn main-power off', 'Prove the meter on a known source']],
  ['dead', ['AC volts: red lead on L1, black on N']],
  ['lift', ['Prove the meter on a known source', 'Lift the lead coil-hot']],
  ['water-runs', ['Look at the pad']],
  ['wiring', ['Has it its own transformer?']],
  ['coil-open', ['Names the fault coil-open']],
  ['no-fault', ['Nothing wrong found']],
  ['weak', ['Stop, and call an electrician']],
])('%s', (id, lines) => expect(taskLines(step(id), tree.facts)).toEqual(lines));

test('a reading that has no two points names its place, and what it is used for', () => {
  const reading = step('power');
  if (reading.kind !== 'reading') throw new Error('power is a reading');
  const { across: _, ...rest } = reading;
  const placed: Step = { ...rest, takes: 'dc-current', at: 'the flame probe', input: 'low', sets: 'flame' };
  expect(taskLines(placed, tree.facts)).toEqual(['DC amps at the flame probe, through a low-impedance input']);
  expect(readingNotes(placed)).toEqual(["The reading becomes the site's flame."]);
  expect(readingNotes(step('dead'))).toEqual(['The lowest band proves these two points dead.']);
  expect(readingNotes(step('power-off'))).toEqual([]);
});

test('settings that must hold are listed', () => {
  expect(heldText(step('power'))).toBe('heat-call on');
  expect(heldText(step('lift'))).toBeUndefined();
});
