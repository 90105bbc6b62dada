import { expect, test } from 'vitest';
import { readBecoming } from './becoming.ts';

test.each([
  ['open', { as: 'mode', mode: 'open' }],
  [' stuck-closed ', { as: 'mode', mode: 'stuck-closed' }],
  ['to C', { as: 'link', node: 'C', offset: 3 }],
  ['moved from K1 to W/W1', { as: 'move', from: 'K1', to: 'W/W1', offset: 17 }],
  ['80 ohm', { as: 'value', text: '80 ohm' }],
  ['85 % of line-volts', { as: 'value', text: '85 % of line-volts' }],
  ['shut', { as: 'state', state: 'shut' }],
  ['reads-high', { as: 'state', state: 'reads-high' }],
  ['', { as: 'value', text: '' }],
])('“%s”', (text, becoming) => {
  expect(readBecoming(text)).toEqual(becoming);
});
