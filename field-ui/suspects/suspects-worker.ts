import '../../shared/ui/no-code-from-text.ts';
import type { SuspectsAnswer, SuspectsRequest } from './suspects-message.ts';
import { SuspectsReader } from './suspects-reader.ts';

let reader: SuspectsReader | undefined;
let waiting: ReturnType<typeof setTimeout> | undefined;

const answer = (message: SuspectsAnswer): void => self.postMessage(message);

/** Runs once the messages that came meanwhile are read: a newer request takes the place of one that has not begun. */
function soon(request: number, work: () => void): void {
  waiting = setTimeout(() => {
    try {
      work();
    } catch (error) {
      // What was kept may be half done; the edition is compiled again with the next worker.
      answer({ stage: 'failed', request, detail: error instanceof Error ? error.message : String(error) });
    }
  });
}

self.addEventListener('message', ({ data }: MessageEvent<SuspectsRequest>) => {
  clearTimeout(waiting);
  if (data.ask === 'edition') {
    reader = new SuspectsReader(data.edition);
    return;
  }
  const { request, id, lines } = data;
  soon(request, () => {
    reader?.take(id, lines);
    const report = reader?.suspects();
    if (!report) return;
    answer({ stage: 'suspects', request, report });
    if (report.benches > 0) soon(request, () => reader && answer({ stage: 'advice', request, advice: reader.advice() }));
  });
});
