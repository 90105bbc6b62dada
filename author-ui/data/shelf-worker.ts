import { config } from 'zod';
import type { Sources } from './fetch-sources.ts';
import { readShelf } from './read-shelf.ts';

// Under a policy without eval the schema library must not even try to compile.
config({ jitless: true });

self.addEventListener('message', ({ data }: MessageEvent<{ readonly request: number; readonly sources: Sources }>) => {
  self.postMessage({ request: data.request, shelf: readShelf(data.sources) });
});
