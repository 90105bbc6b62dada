import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readBench } from '../../../engine/bench/index.ts';
import { withoutLearnt, withWeights } from './with-weights.ts';

const TEXT = readFileSync(new URL('../../../trees/benches/condensate-safeties.bench.yaml', import.meta.url), 'utf8');

test('only the faults whose weight changes are written anew, and nothing else of them', () => {
  const before = readBench(TEXT, { file: '' }).bench;
  const [first = '', second = ''] = Object.keys(before?.faults ?? {});
  const same = before?.faults[second]?.weight ?? 0;
  const text = withWeights(TEXT, [
    { fault: first, prior: 3.5, newWeight: 7.25 },
    { fault: second, prior: same, newWeight: same },
    { fault: 'no-such-fault', prior: 1, newWeight: 2 },
  ]);
  const after = readBench(text, { file: '' }).bench;
  expect(after?.faults[first]).toEqual({ ...before?.faults[first], weight: 7.25, prior: 3.5 });
  expect({ ...after, faults: { ...after?.faults, [first]: before?.faults[first] } }).toEqual(before);
  const changed = text.split('\n').filter((line, at) => line !== TEXT.split('\n')[at]);
  expect(changed).toHaveLength(1);
  expect(withoutLearnt(text, [{ fault: first, prior: 3.5, newWeight: 7.25 }])).toBe(
    withWeights(TEXT, [{ fault: first, prior: 3.5, newWeight: 3.5 }]),
  );
});
