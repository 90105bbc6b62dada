import '../../shared/ui/no-code-from-text.ts';
import { editionHash } from '../../engine/walk/index.ts';
import { deskEdition } from './desk-edition.ts';
import { editionProblemWords } from './edition-problem-words.ts';
import type { ProofAnswer, ProofRequest } from './proof-message.ts';
import { DeskProof } from './proof-report.ts';

let proof: DeskProof | undefined;

const answer = (message: ProofAnswer): void => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<ProofRequest>) => {
  if (data.ask === 'replay') {
    const { bench, fault, end } = data.which;
    answer({ stage: 'replayed', which: data.which, replay: proof?.replay(bench, fault, end) });
    return;
  }
  const made = deskEdition(data.name, data.sources);
  if (!made.ok) {
    const { problems, why } = made.problem;
    answer({ stage: 'not-proved', problems, ...(why && { why: editionProblemWords(why) }) });
    return;
  }
  answer({ stage: 'paths' });
  const { edition, places, problems } = made.value;
  proof = new DeskProof(edition);
  const report = proof.report(places, problems, (done, of) => {
    answer({ stage: 'faults', done, of });
    return true;
  });
  answer({ stage: 'proved', report, edition, hash: editionHash(edition) });
});
