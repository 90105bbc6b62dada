import { expect, test } from 'vitest';
import { readBench } from '../../engine/bench/index.ts';
import { blankBench } from './blank-bench.ts';

test.each(['A zone valve', 'No heat: the second stage', '24 V # and more', 'yes'])('a new bench called %s has no problems', (title) => {
  const { bench, problems } = readBench(blankBench(title), { file: 'new' });
  expect(problems).toEqual([]);
  expect(bench?.title).toBe(title);
});
