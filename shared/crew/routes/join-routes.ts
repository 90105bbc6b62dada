import type { FastifyInstance } from 'fastify';
import { type HubState, type Joined, joinRequestSchema } from '../../sync/wire/crew-wire.ts';
import type { Hub } from '../hub.ts';
import { refuse } from '../hub-refusal.ts';
import { callerOf, clearDeskCookie, isPrivate, setDeskCookie, standingOf } from '../roles/guard.ts';
import { join } from '../store/invitation-store.ts';
import { hasOwner, meOf, stopDevice } from '../store/people-store.ts';
import { readBody } from './read-request.ts';

/** Coming in and going out. */
export function serveJoining(app: FastifyInstance, { store, now, limits }: Hub): void {
  app.get('/crew/state', async (request, reply): Promise<HubState> => {
    reply.header('cache-control', 'no-store');
    const at = now();
    return { hub: 'ohmward', owned: await hasOwner(store), now: at, you: await standingOf(request, store, at) };
  });

  app.post('/crew/join', { config: { rateLimit: { max: limits.codes, timeWindow: '1 minute' } }, bodyLimit: 4096 }, async (request, reply) => {
    if (!isPrivate(request)) return refuse(reply, 'needs-https');
    const body = readBody(joinRequestSchema, request, reply);
    if (!body) return reply;
    const at = now();
    const joined = await join(store, body, at);
    if (!joined.ok) return refuse(reply, joined.problem);
    const { person, device, secret } = joined.value;
    reply.header('cache-control', 'no-store');
    if (device.kind === 'desk') setDeskCookie(request, reply, secret, at);
    const answer: Joined = { person, device, ...(device.kind === 'field' && { token: secret }) };
    return reply.code(201).send(answer);
  });

  app.get('/crew/me', async (request, reply) => {
    reply.header('cache-control', 'no-store');
    return meOf(store, callerOf(request));
  });

  app.post('/crew/leave', async (request, reply) => {
    const caller = callerOf(request);
    await stopDevice(store, caller, caller.device, now());
    return clearDeskCookie(reply).send({ done: true });
  });
}
