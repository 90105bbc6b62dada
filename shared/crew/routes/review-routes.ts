import type { FastifyInstance } from 'fastify';
import { confirmRequestSchema, pictureQuerySchema } from '../../sync/wire/review-wire.ts';
import type { Hub } from '../hub.ts';
import { refuse } from '../hub-refusal.ts';
import { callerOf } from '../roles/guard.ts';
import { confirm, confirmationsOf, confirmedFaults } from '../store/confirmation-store.ts';
import { crewPicture } from '../store/picture-store.ts';
import { sumUpDue } from '../store/sum-up-walk.ts';
import { readBody, readQuery } from './read-request.ts';

const DUE_AT_ONCE = 50;

/** What was learnt of findings afterwards, and where the crew's calls of a tree go. */
export function serveReview(app: FastifyInstance, { store, now, editions }: Hub): void {
  app.post<{ Params: { walk: string } }>('/crew/walks/:walk/confirmations', async (request, reply) => {
    const body = readBody(confirmRequestSchema, request, reply);
    if (!body) return reply;
    const added = await confirm(store, callerOf(request), request.params.walk, body, now());
    return added.ok ? reply.code(201).send(added.value) : refuse(reply, added.problem);
  });

  app.get<{ Params: { walk: string } }>('/crew/walks/:walk/confirmations', async (request, reply) => {
    const confirmations = await confirmationsOf(store, request.params.walk);
    return confirmations ? { confirmations } : refuse(reply, 'not-there');
  });

  app.get<{ Params: { tree: string } }>('/crew/trees/:tree/picture', async (request, reply) => {
    const query = readQuery(pictureQuerySchema, request, reply);
    if (!query) return reply;
    await sumUpDue(store, editions, DUE_AT_ONCE);
    return crewPicture(store, request.params.tree, query);
  });

  app.get('/crew/confirmed-faults', async () => ({ faults: await confirmedFaults(store) }));
}
