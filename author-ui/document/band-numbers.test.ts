import { expect, test } from 'vitest';
import type { FactSpec, Step } from '../../engine/tree/index.ts';
import { usualNumbers } from './band-numbers.ts';

const facts: Record<string, FactSpec> = {
  'coil-rated': { quantity: 'ac-voltage', ask: 'Coil voltage', usual: '24 V', from: '20 V', to: '28 V' },
  outdoor: { quantity: 'temperature', ask: 'Outdoor temperature', usual: '32 °F', from: '0 °F', to: '45 °F' },
  wiring: { choices: ['own', 'shared'], ask: 'Wiring', usual: 'own' },
};
const common = { id: 'a', title: 'A', minutes: 1, while: [], cautions: [], prose: [], photos: [], ways: [] };
const volts: Step = { kind: 'reading', ...common, takes: 'ac-voltage', across: ['R', 'C'] };
const ohms: Step = { kind: 'reading', ...common, takes: 'resistance', across: ['S1', 'S2'] };

test.each([
  ['below 85 % of coil-rated', 'below 20.4 V'],
  ['85 % of coil-rated to 125 % of coil-rated', '20.4 V to 30 V'],
  ['above coil-rated + 2 V', '26 V and above'],
  ['within 10 % of coil-rated', '21.6 V to 26.4 V'],
])('%s usually is %s', (band, numbers) => expect(usualNumbers(band, volts, facts)).toBe(numbers));

// A published table of a type 2 sensor gives 32 650 ohm at 0 °C: tests/outside/thermistor-tables.csv, with its source.
test('a curve of the trade is worked out', () => {
  expect(usualNumbers('below ntc(10 kohm, type-2, outdoor)', ohms, facts)).toMatch(/^below 32\.[67]\d* kΩ$/);
});

test.each(['below 2 V', '2 V to 5 V', 'open', 'otherwise', 'done', 'below nothing-known', 'not a band at all'])('%s says nothing more', (band) =>
  expect(usualNumbers(band, volts, facts)).toBeUndefined(),
);

test('a fact asked with bands has numbers, a choice has none', () => {
  expect(usualNumbers('above outdoor', { kind: 'ask', ...common, fact: 'outdoor' }, facts)).toBe('32 °F and above');
  expect(usualNumbers('own', { kind: 'ask', ...common, fact: 'wiring' }, facts)).toBeUndefined();
});
