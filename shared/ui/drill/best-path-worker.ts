import '../no-code-from-text.ts';
import { type BestDrillPath, bestDrillPath, type DrillTask, drillGround } from '../../../engine/review/index.ts';
import { type Edition, walkableEdition } from '../../../engine/walk/index.ts';

export type BestPathRequest = { readonly edition: Edition; readonly task: DrillTask };
export type BestPathAnswer = { readonly best: BestDrillPath } | { readonly failed: string };

self.addEventListener('message', ({ data }: MessageEvent<BestPathRequest>) => {
  const ground = drillGround(walkableEdition(data.edition), data.task);
  const answer: BestPathAnswer = ground.ok ? { best: bestDrillPath(ground.value) } : { failed: ground.problem.code };
  self.postMessage(answer);
});
