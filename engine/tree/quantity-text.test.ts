import { expect, it } from 'vitest';
import { quantityText } from './quantity-text.ts';

it.each([
  ['120 V', 'ac-voltage', '120 V', 120],
  ['120V', 'ac-voltage', '120 V', 120],
  ['120', 'ac-voltage', '120 V', 120],
  ['1.20k', 'resistance', '1.20 kohm', 1200],
  ['-40 °C', 'temperature', '-40 °C', 233.15],
  ['+5 F°', 'temperature-difference', '5 F°', 25 / 9],
  ['3', 'number', '3', 3],
  ['40 %', 'humidity', '40 %', 0.4],
] as const)('“%s” as %s is “%s”', (written, kind, text, si) => {
  const read = quantityText(written, kind);
  expect(read).toMatchObject({ text });
  expect(typeof read === 'object' ? read.si : Number.NaN).toBeCloseTo(si, 9);
});

it.each([
  ['120 ohm', 'ac-voltage', 'wrong-unit'],
  ['5 kft', 'length', 'wrong-unit'],
  ['5k', 'length', 'wrong-unit'],
  ['open', 'resistance', 'not-a-quantity'],
  ['a lot', 'ac-voltage', 'not-a-quantity'],
  ['1,5 V', 'ac-voltage', 'not-a-quantity'],
  ['-5 V', 'ac-voltage', 'not-a-quantity'],
] as const)('“%s” as %s is %s', (written, kind, fault) => {
  expect(quantityText(written, kind)).toBe(fault);
});
