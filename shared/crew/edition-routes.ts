import type { FastifyInstance } from 'fastify';
import type { EditionShelf } from './edition-shelf.ts';

const HASH = /^([0-9a-f]{64})\.json$/;

/** `/editions/index.json`, the list, and `/editions/<hash>.json`, one edition, which never changes under its name. */
export function serveEditions(app: FastifyInstance, shelf: EditionShelf): void {
  app.get('/editions/index.json', async (_request, reply) => {
    const { entries } = await shelf.current();
    return reply.header('cache-control', 'no-cache').send(entries);
  });

  app.get<{ Params: { file: string } }>('/editions/:file', async (request, reply) => {
    const hash = HASH.exec(request.params.file)?.[1];
    const text = hash === undefined ? undefined : await shelf.text(hash);
    if (text === undefined) {
      reply.callNotFound();
      return reply;
    }
    return reply.header('cache-control', 'public, max-age=31536000, immutable').type('application/json; charset=utf-8').send(text);
  });
}
