import type { FastifyInstance } from 'fastify';
import type { Kysely } from 'kysely';
import type { Hub } from '../hub.ts';
import { isMigrated } from '../store/migrations/migrate.ts';

/** For what watches the hub: whether it can do its work, and how much it does. */
export function serveWatching(app: FastifyInstance, { store, metrics }: Hub): void {
  app.get('/crew/readiness', async (_request, reply) => {
    let ready = false;
    try {
      ready = await isMigrated(store.db as unknown as Kysely<unknown>);
    } catch {
      // The database cannot be asked: that is the answer.
    }
    return reply
      .header('cache-control', 'no-store')
      .code(ready ? 200 : 503)
      .send({ ready });
  });

  app.get('/crew/metrics', async (_request, reply) => reply.type(metrics.registry.contentType).send(await metrics.registry.metrics()));
}
