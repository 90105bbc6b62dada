import type { Sources } from './fetch-sources.ts';
import type { Shelf } from './read-shelf.ts';

type Answer = { readonly request: number; readonly shelf: Shelf };

let worker: Worker | undefined;
let requests = 0;

/** Reads a shelf in a worker: with many trees and benches it takes longer than a screen may stand still. */
export function readShelfAside(sources: Sources): Promise<Shelf> {
  const reader = worker ?? new Worker(new URL('./shelf-worker.ts', import.meta.url), { type: 'module', name: 'shelf' });
  worker = reader;
  requests += 1;
  const request = requests;
  return new Promise((resolve, reject) => {
    const answered = ({ data }: MessageEvent<Answer>): void => {
      if (data.request !== request) return;
      stop();
      resolve(data.shelf);
    };
    const failed = (event: ErrorEvent): void => {
      stop();
      reject(new Error(event.message || 'The part of the desk that reads the trees did not start.'));
    };
    const stop = (): void => {
      reader.removeEventListener('message', answered);
      reader.removeEventListener('error', failed);
    };
    reader.addEventListener('message', answered);
    reader.addEventListener('error', failed);
    reader.postMessage({ request, sources });
  });
}
