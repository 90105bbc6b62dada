import 'fake-indexeddb/auto';
import { afterEach, expect, test, vi } from 'vitest';
import { smallEdition } from '../../../engine/walk/testing/small-edition.ts';
import { openWalksDb } from '../source/walks-db.ts';
import { ReviewDesk } from './review-desk.ts';

afterEach(() => vi.unstubAllGlobals());

/** A worker whose script cannot be had: it takes what it is sent, says once that it failed, and answers nothing. */
class NeverStarts extends EventTarget {
  static begun = 0;
  constructor() {
    super();
    NeverStarts.begun += 1;
    setTimeout(() => this.dispatchEvent(new Event('error')));
  }
  postMessage(): void {}
  terminate(): void {}
}

test('a worker that does not start is told of each walk, and none is waited for for ever', async () => {
  vi.stubGlobal('Worker', NeverStarts);
  const desk = new ReviewDesk(openWalksDb('review-desk'));
  const walk = (id: string) => desk.review({ walk: id, edition: smallEdition(), hash: 'e', lines: [] });
  expect((await walk('a')).ok).toBe(false);
  expect((await walk('b')).ok).toBe(false);
  expect(NeverStarts.begun).toBe(2);
});
