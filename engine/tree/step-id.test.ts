import { expect, it } from 'vitest';
import { anchorOf, stepId } from './step-id.ts';

it.each([
  ['Power at R and C', 'power-at-r-and-c'],
  ["Lift the coil's wire", 'lift-the-coils-wire'],
  ['R & C', 'r-c'],
  ['  – 24 V – ', '24-v'],
  ['Résistance (Ω), 5 µA', 'resistance-ohm-5-ua'],
  ['Größe', 'grosse'],
  ['温度', ''],
])('of “%s” is “%s”', (title, id) => {
  expect(stepId(title)).toBe(id);
});

it('is the same for the address that a page gives the heading', () => {
  expect(stepId('r--c')).toBe('r-c');
  expect(anchorOf('r-c', 'R & C')).toBe('r--c');
});

it('is its own address where the title gives another', () => {
  expect(anchorOf('old-id', 'R & C')).toBe('old-id');
  expect(anchorOf('5-ua', '5 µA')).toBe('5-ua');
});
