import '../../shared/ui/no-code-from-text.ts';
import type { Edition } from '../../engine/walk/index.ts';
import { deskEdition } from '../proof/desk-edition.ts';
import { type ExpectedValues, expectedValues } from './expected-values.ts';
import type { ExpectedAnswer, ExpectedRequest } from './try-message.ts';

let latest = 0;
let known: { readonly key: string; readonly values: ExpectedValues } | undefined;

const answer = (message: ExpectedAnswer): void => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<ExpectedRequest>) => {
  latest = data.request;
  // What came while the last one was read comes first: only the latest text is walked.
  setTimeout(() => data.request === latest && begin(data), 0);
});

function begin({ request, name, sources }: ExpectedRequest): void {
  const made = deskEdition(name, sources);
  if (!made.ok) {
    answer({ stage: 'not-read', request });
    return;
  }
  const { edition } = made.value;
  const key = JSON.stringify(withoutWords(edition));
  if (known?.key === key) {
    answer({ stage: 'read', request, values: known.values });
    return;
  }
  const cases = expectedValues(edition);
  const goOn = (): void => {
    if (request !== latest) return;
    // Some cases at a time, then a look at whether the text has changed.
    for (const until = performance.now() + 40; performance.now() < until; ) {
      const next = cases.next();
      if (next.done) return;
      if (!next.value) continue;
      if (next.value.corners === 'all') known = { key, values: next.value };
      answer({ stage: 'read', request, values: next.value });
    }
    setTimeout(goOn, 0);
  };
  goOn();
}

/** All of an edition that a reading can depend on: not what is said in it. */
function withoutWords(edition: Edition): unknown {
  const trees = Object.values(edition.trees).map(({ title: _title, complaint: _complaint, opening: _opening, steps, ...tree }) => ({
    ...tree,
    steps: steps.map(({ title: _step, prose: _prose, cautions: _cautions, photos: _photos, minutes: _minutes, ...step }) => step),
  }));
  return [edition.root, trees, edition.benches];
}
