import '../../shared/ui/no-code-from-text.ts';
import type { Edition } from '../../engine/walk/index.ts';
import { type MinutesReport, minutesReport } from './minutes-report.ts';

export type MinutesAnswer =
  | { readonly stage: 'benches'; readonly done: number; readonly of: number }
  | { readonly stage: 'done'; readonly report: MinutesReport };

const answer = (message: MinutesAnswer): void => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<Edition>) =>
  answer({ stage: 'done', report: minutesReport(data, (done, of) => answer({ stage: 'benches', done, of })) }),
);
