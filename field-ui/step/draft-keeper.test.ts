import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { StoredDraft } from '../storage/field-db.ts';
import { DraftKeeper } from './draft-keeper.ts';

const typed = (text: string): StoredDraft => ({ walk: 'walk-1', at: 'power 3', text });
let kept: string[];
let keeper: DraftKeeper;

beforeEach(() => {
  vi.useFakeTimers();
  kept = [];
  keeper = new DraftKeeper(async ({ text }) => void kept.push(text));
});

afterEach(() => vi.useRealTimers());

it('what is typed is kept once the keys rest', () => {
  for (const text of ['2', '26', '26.']) keeper.type(typed(text));
  expect(kept).toEqual([]);
  vi.runAllTimers();
  expect(kept).toEqual(['26.']);
});

it('what was typed right before the page is left is kept at once, and once', () => {
  keeper.type(typed('26.'));
  keeper.leave('power 3');
  expect(kept).toEqual(['26.']);
  vi.runAllTimers();
  keeper.leave('power 3');
  expect(kept).toEqual(['26.']);
});

it('what was entered, or typed on a step that was left, is not kept', () => {
  keeper.type(typed('26.4'));
  keeper.leave('jumper 4');
  keeper.type(typed('26.4'));
  keeper.leave(undefined);
  keeper.type(typed('26.4'));
  keeper.forget();
  vi.runAllTimers();
  expect(kept).toEqual([]);
});
