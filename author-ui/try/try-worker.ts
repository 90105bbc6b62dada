import '../../shared/ui/no-code-from-text.ts';
import { deskEdition } from '../proof/desk-edition.ts';
import { editionProblemWords } from '../proof/edition-problem-words.ts';
import { TriedTree } from './tried-tree.ts';
import type { TryAnswer, TryRequest } from './try-message.ts';

let tried: TriedTree | undefined;

const answer = (message: TryAnswer): void => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<TryRequest>) => {
  if (data.ask === 'walk') {
    if (tried) answer({ stage: 'walked', request: data.request, state: tried.state(data.setup, data.moves) });
    return;
  }
  const made = deskEdition(data.name, data.sources);
  tried = made.ok ? new TriedTree(made.value.edition) : undefined;
  if (tried) {
    answer({ stage: 'ready', request: data.request, offer: tried.offer() });
    return;
  }
  if (made.ok) return;
  const { problems, why } = made.problem;
  answer({ stage: 'not-ready', request: data.request, problems, ...(why && { why: editionProblemWords(why) }) });
});
