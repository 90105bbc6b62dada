import { expect, test } from 'vitest';
import { actionWords, turnBackWords } from './action-words.ts';

test.each([
  ['main-power', 'off', 'Turn main power off', 'Turn it off'],
  ['thermostat', 'heating', 'Set thermostat: heating', 'Set it back: heating'],
  ['fuse-holder', 'test-lamp', 'Set fuse holder: test lamp', 'Set it back: test lamp'],
])('%s %s is said as a tech would', (setting, state, words, back) => {
  expect(actionWords({ do: 'turn', setting, state })).toBe(words);
  expect(turnBackWords(state.replaceAll('-', ' '))).toBe(back);
});
