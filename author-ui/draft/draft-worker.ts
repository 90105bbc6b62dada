import '../../shared/ui/no-code-from-text.ts';
import { draftFromBench } from './draft-from-bench.ts';
import type { DraftAnswer, DraftRequest } from './draft-message.ts';

const answer = (message: DraftAnswer): void => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<DraftRequest>) => answer(draftFromBench(data, answer)));
