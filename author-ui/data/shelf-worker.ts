import '../../shared/ui/no-code-from-text.ts';
import type { Sources } from './fetch-sources.ts';
import { readShelf } from './read-shelf.ts';

self.addEventListener('message', ({ data }: MessageEvent<{ readonly request: number; readonly sources: Sources }>) => {
  self.postMessage({ request: data.request, shelf: readShelf(data.sources) });
});
