import cookie from '@fastify/cookie';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Role } from '../../sync/wire/role.ts';
import { refuse } from '../hub-refusal.ts';
import { deskExpiry } from '../store/invitation-store.ts';
import type { HubStore } from '../store/open-store.ts';
import { markSeen, type Recognised, recognise } from '../store/people-store.ts';
import { accessOf } from './access-table.ts';
import type { Caller } from './caller.ts';
import { hashSecret, isSecret } from './secrets.ts';

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks, where the route is for the crew; null otherwise. */
    caller: Caller | null;
  }
}

export const DESK_COOKIE = 'ohmward-desk';

export type GuardOptions = {
  readonly store: HubStore;
  readonly now: () => string;
  /** Opens the metrics to who shows it as a bearer token, besides owners. */
  readonly metricsKey?: string | undefined;
};

/** Milliseconds that `seen` may lag behind, so that a busy phone does not cost a write per request. */
const SEEN_EVERY = 5 * 60_000;

const bearerOf = (request: FastifyRequest): string | undefined => /^Bearer ([\w-]{1,200})$/.exec(request.headers.authorization ?? '')?.[1];

/** The page that sent this is the hub's own, as far as the browser says; undefined where it does not say. */
function isOwnOrigin(request: FastifyRequest): boolean | undefined {
  const { origin } = request.headers;
  if (origin === undefined) return undefined;
  return origin === `${request.protocol}://${request.host}`;
}

const isLoopback = (ip: string): boolean => /^(127\.|::1$|::ffff:127\.)/.test(ip);

/** Whether what is sent to this request can be read by nobody on the way. */
export const isPrivate = (request: FastifyRequest): boolean => request.protocol === 'https' || isLoopback(request.ip);

/**
 * A desk's cookie: no script reads it, no other site's page sends it, and only the hub's own addresses get it. `secure` is left out only on
 * the hub's own machine over plain http, where some browsers would drop it.
 */
export function setDeskCookie(request: FastifyRequest, reply: FastifyReply, secret: string, now: string): void {
  reply.setCookie(DESK_COOKIE, secret, {
    path: '/crew/',
    httpOnly: true,
    sameSite: 'strict',
    secure: request.protocol === 'https',
    expires: new Date(deskExpiry(now)),
  });
}

export const clearDeskCookie = (reply: FastifyReply): FastifyReply => reply.clearCookie(DESK_COOKIE, { path: '/crew/' });

/** How the device that asks stands to the crew, on a route that lets anyone in. */
export async function standingOf(request: FastifyRequest, store: HubStore, now: string): Promise<'joined' | Exclude<Recognised['is'], 'caller'>> {
  const token = bearerOf(request);
  const secret = token ?? request.cookies[DESK_COOKIE];
  if (secret === undefined || !isSecret(secret)) return 'stranger';
  const found = await recognise(store, secret, now);
  if (found.is !== 'caller') return found.is;
  return (found.caller.kind === 'desk') === (token === undefined) ? 'joined' : 'stranger';
}

/** Lets nobody in who does not belong: every route is looked up in the table, and every caller by the secret that they show. */
export async function guard(app: FastifyInstance, { store, now, metricsKey }: GuardOptions): Promise<void> {
  await app.register(cookie);
  app.decorateRequest('caller', null);

  app.addHook('onRequest', async (request, reply) => {
    const { url } = request.routeOptions;
    if (url === undefined) return;
    const access = accessOf(request.method, url);
    if (access === 'anyone') {
      if (request.method !== 'GET' && request.method !== 'HEAD' && isOwnOrigin(request) === false) return refuse(reply, 'other-origin');
      return;
    }
    if (access === undefined) return refuse(reply, 'not-allowed');
    const token = bearerOf(request);
    if (access === 'metrics' && metricsKey !== undefined && token !== undefined && hashSecret(token) === hashSecret(metricsKey)) return;
    const fromCookie = request.cookies[DESK_COOKIE];
    const secret = token ?? fromCookie;
    if (secret === undefined || !isSecret(secret)) return refuse(reply, 'not-joined');
    // A cookie comes along by itself, so whoever made the request must be the hub's own page. A token was put there on purpose.
    if (token === undefined && request.method !== 'GET' && request.method !== 'HEAD' && isOwnOrigin(request) !== true)
      return refuse(reply, 'other-origin');
    const at = now();
    const found = await recognise(store, secret, at);
    if (found.is !== 'caller') {
      // A cookie that was stopped stays: every answer can say why, however many are under way, and one whose person is let back is good again.
      if (token === undefined && found.is === 'stranger') clearDeskCookie(reply);
      return refuse(reply, found.is === 'stranger' ? 'not-joined' : found.is);
    }
    // A desk's secret is good only in its cookie, a phone's only as its token: one that was taken from where it is kept does not fit elsewhere.
    if ((found.caller.kind === 'desk') !== (token === undefined)) return refuse(reply, 'not-joined');
    const roles: readonly Role[] = access === 'metrics' ? ['owner'] : access;
    if (!roles.includes(found.caller.role)) return refuse(reply, 'not-allowed');
    request.caller = found.caller;
    if (Date.parse(at) - Date.parse(found.seen) > SEEN_EVERY) {
      const isDesk = found.caller.kind === 'desk';
      await markSeen(store, found.caller.device, at, isDesk ? deskExpiry(at) : undefined);
      if (isDesk) setDeskCookie(request, reply, secret, at);
    }
  });
}

/** The caller of a route that only the crew may use. */
export function callerOf(request: FastifyRequest): Caller {
  if (!request.caller) throw new Error('A route for the crew was reached without a caller.');
  return request.caller;
}

/** Stops the service from starting with a route that the table does not know. */
export function tellOnUnknownRoutes(app: FastifyInstance): void {
  app.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat())
      if (accessOf(one, url) === undefined) throw new Error(`${one} ${url} is not in the access table (shared/crew/roles/access-table.ts).`);
  });
}
