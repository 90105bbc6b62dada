import '../../../shared/ui/no-code-from-text.ts';
import { Reviewer, type WalkReplay } from '../../../engine/review/index.ts';
import { walkableEdition } from '../../../engine/walk/index.ts';
import { nearestFirst } from './nearest-first.ts';
import { framesOf } from './replay-frame.ts';
import type { ReplayAnswer, ReplayRequest } from './replay-message.ts';

let looking = 0;
const told = new Set<number>();
const answer = (message: ReplayAnswer): void => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<ReplayRequest>) => {
  looking = data.at;
  if (data.ask === 'look') return;
  const replay = new Reviewer(walkableEdition(data.edition)).replay(data.lines);
  answer({ stage: 'frames', replayed: framesOf(replay) });
  setTimeout(() => tell(replay), 0);
});

/** Suspects line by line, those about the line looked at first, with a look at the messages between. */
function tell(replay: WalkReplay): void {
  const at = nearestFirst(replay.frames.length, looking, told);
  const suspects = at === undefined ? undefined : replay.suspects(at);
  if (at === undefined || !suspects) return;
  told.add(at);
  const { faults, nothingWrong, unknown, excluded } = suspects;
  answer({ stage: 'suspects', at, suspects: { faults, nothingWrong, unknown, excluded } });
  setTimeout(() => tell(replay), 0);
}
