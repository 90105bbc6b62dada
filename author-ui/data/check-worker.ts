import '../../shared/ui/no-code-from-text.ts';
import type { CheckAnswer, CheckRequest } from './check-message.ts';
import { TreeChecker } from './tree-checker.ts';

const checker = new TreeChecker();
let waiting: ReturnType<typeof setTimeout> | undefined;

const answer = (message: CheckAnswer): void => self.postMessage(message);

self.addEventListener('message', ({ data: { request, name, sources } }: MessageEvent<CheckRequest>) => {
  clearTimeout(waiting);
  const { read, ...checked } = checker.read(name, sources);
  answer({ request, stage: 'read', checked });
  // Following every path takes longer than a keystroke, so it waits for a pause in them.
  waiting = setTimeout(() => answer({ request, stage: 'paths', problems: checker.paths(name, sources, read) }), 250);
});
