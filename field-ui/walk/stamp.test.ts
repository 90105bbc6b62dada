import { expect, it } from 'vitest';
import { walkLineSchema } from '../../engine/walk/index.ts';
import { newId } from './new-id.ts';
import { localIso, stampNow } from './stamp.ts';

it('writes a moment with its offset, which names the same moment', () => {
  const moment = new Date('2026-03-01T12:34:56.789Z');
  const iso = localIso(moment);
  expect(iso).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}[+-]\d\d:\d\d$/);
  expect(Date.parse(iso)).toBe(moment.getTime());
  expect(walkLineSchema.shape.time.safeParse(iso).success).toBe(true);
});

it('never runs back', () => {
  const first = stampNow();
  expect(stampNow().mono).toBeGreaterThanOrEqual(first.mono);
});

it('makes ids that can be read out and do not repeat', () => {
  const ids = Array.from({ length: 1000 }, () => newId('walk'));
  expect(new Set(ids).size).toBe(1000);
  for (const id of ids) expect(id).toMatch(/^walk-[2-9a-km-np-z]{16}$/);
});
