import rateLimit from '@fastify/rate-limit';
import type { FastifyInstance } from 'fastify';
import type { EditionShelf } from './edition-shelf.ts';
import { type Hub, USUAL_LIMITS } from './hub.ts';
import { refuse } from './hub-refusal.ts';
import { guard } from './roles/guard.ts';
import { serveCrewEditions } from './routes/crew-edition-routes.ts';
import { serveCrew } from './routes/crew-routes.ts';
import { serveDrills } from './routes/drill-routes.ts';
import { serveJoining } from './routes/join-routes.ts';
import { servePhotos } from './routes/photo-routes.ts';
import { serveReview } from './routes/review-routes.ts';
import { serveWalks } from './routes/walk-routes.ts';
import { serveWatching } from './routes/watch-routes.ts';
import type { HubOptions } from './serve.ts';
import { editionText } from './store/edition-store.ts';
import { sumUpAll } from './store/sum-up-walk.ts';
import { WalkableEditions } from './store/walkable-editions.ts';
import { HubMetrics } from './watch/hub-metrics.ts';

class TooMany extends Error {
  readonly statusCode = 429;
}

/** Puts the crew's hub on the service: who may come in, how often, and all of `/crew/`. */
export async function serveHub(app: FastifyInstance, options: HubOptions, shelf: EditionShelf): Promise<void> {
  const { store, now = () => new Date().toISOString(), address, metricsKey, limits = USUAL_LIMITS } = options;
  const metrics = options.processMetrics === true ? new HubMetrics().withProcess() : new HubMetrics();
  const editions = new WalkableEditions(async (hash) => (await editionText(store, hash)) ?? (await shelf.text(hash)));
  const hub: Hub = { store, now, shelf, editions, metrics, address, limits };

  await guard(app, { store, now, metricsKey });
  await app.register(rateLimit, {
    global: true,
    // After the caller is known and before the body is read.
    hook: 'preParsing',
    timeWindow: '1 minute',
    max: (request) => (request.caller ? limits.device : limits.stranger),
    keyGenerator: (request) => request.caller?.device ?? request.ip,
    allowList: (request) => !request.url.startsWith('/crew/'),
    errorResponseBuilder: () => new TooMany('too many requests'),
  });
  app.addHook('preValidation', async (request, reply) => {
    // PostgreSQL takes no NUL in a text, and no name of anything here has control characters.
    for (const value of Object.values((request.params ?? {}) as Record<string, string>))
      if (/[\p{Cc}\p{Cs}]/u.test(value)) return refuse(reply, 'not-there');
  });
  app.addHook('onResponse', async (request, reply) => {
    metrics.answered(request.method, request.routeOptions.url ?? '(none)', reply.statusCode, reply.elapsedTime);
  });
  let closing = false;
  app.addHook('onListen', async () => {
    sumUpAll(store, editions, () => closing).catch((error: unknown) => closing || app.log.error({ err: error }, 'not summed up'));
  });
  app.addHook('onClose', async () => {
    closing = true;
    await store.close();
  });

  serveJoining(app, hub);
  serveCrew(app, hub);
  serveCrewEditions(app, hub);
  serveWalks(app, hub);
  serveReview(app, hub);
  serveDrills(app, hub);
  await servePhotos(app, hub);
  serveWatching(app, hub);
}
