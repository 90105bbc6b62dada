import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import helmet from '@fastify/helmet';
import fastify, { type FastifyError, type FastifyInstance, type FastifyReply } from 'fastify';
import { HUB_HEADER } from '../sync/hub-header.ts';
import type { HubCode } from '../sync/wire/problem-wire.ts';
import { serveApps, unbuiltApp } from './app-routes.ts';
import { serveEditions } from './edition-routes.ts';
import { type EditionShelf, editionShelf } from './edition-shelf.ts';
import type { HubLimits } from './hub.ts';
import { refusalBody, refuse } from './hub-refusal.ts';
import { serveHub } from './hub-routes.ts';
import { tellOnUnknownRoutes } from './roles/guard.ts';
import { SECURITY_HEADERS } from './security-headers.ts';
import { type HubStore, isStoreBusy } from './store/open-store.ts';
import { serveTreeSources } from './tree-routes.ts';
import { hubLogger, type LogLevel } from './watch/hub-log.ts';

const fromHere = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** The trees that come with the repository. */
export const SHIPPED_TREES = fromHere('../../trees');

/** Where the build leaves the two apps: `field/` and `desk/`. */
export const BUILT_APPS = fromHere('../../.build');

export type HubOptions = {
  /** Open, and at the newest schema. Closed with the server. */
  readonly store: HubStore;
  /** ISO 8601 in UTC; the machine's clock where left out. */
  readonly now?: () => string;
  readonly address?: string | undefined;
  readonly metricsKey?: string | undefined;
  readonly limits?: HubLimits;
  /** Adds the process's own numbers to the metrics. */
  readonly processMetrics?: boolean;
};

export type ServiceOptions = {
  /** Folder of tree files. */
  readonly trees?: string;
  /** Folder of the built apps. */
  readonly apps?: string;
  /** The crew's hub; without it the service can only be read. */
  readonly hub?: HubOptions;
  readonly log?: { readonly level: LogLevel; readonly stream?: { write(line: string): void } };
  /** Addresses of proxies whose word on who asks, and over https or not, is taken. This machine's own where left out. */
  readonly trustProxy?: string;
};

export type ServerOptions = ServiceOptions & {
  /** TCP port; 0 for any free one. */
  readonly port: number;
  readonly host: string;
};

export type RunningServer = {
  /** Address without a slash at its end, such as `http://127.0.0.1:4460`. */
  readonly url: string;
  readonly shelf: EditionShelf;
  close(): Promise<void>;
};

const ALLOWED = ['GET', 'HEAD'];

/** What the crew's routes take in; everything else can only be read. */
const isCrewPath = (url: string): boolean => url.startsWith('/crew/');

function codeOf(error: FastifyError): HubCode {
  if (error.statusCode === 413) return 'too-large';
  if (error.statusCode === 415) return 'wrong-type';
  if (error.statusCode === 429) return 'slow-down';
  if (isStoreBusy(error)) return 'hub-busy';
  return (error.statusCode ?? 500) >= 500 ? 'hub-troubled' : 'not-understood';
}

function setAnswers(app: FastifyInstance, apps: string, hasHub: boolean): void {
  app.setErrorHandler<FastifyError>(async (error, request, reply) => {
    const code = codeOf(error);
    if (code === 'hub-busy') reply.header('retry-after', '5');
    if (code === 'hub-troubled' || code === 'hub-busy') {
      request.log.error({ err: error }, 'not answered');
      if (app.log.level === undefined || app.log.level === 'silent') console.error(error);
    }
    return refuse(reply, code);
  });
  app.setNotFoundHandler(async (request, reply) => {
    const unbuilt = unbuiltApp(request.url, apps);
    if (unbuilt) return reply.code(503).send({ ...refusalBody('hub-busy'), error: `The ${unbuilt} app is not built yet: run npm run build.` });
    return refuse(reply, isCrewPath(request.url) && !hasHub ? 'no-hub' : 'not-there');
  });
}

/** The service without a socket: answers `inject`ed requests. */
export async function buildServer({
  trees = SHIPPED_TREES,
  apps = BUILT_APPS,
  hub,
  log = { level: 'silent' },
  trustProxy = 'loopback',
}: ServiceOptions): Promise<{ app: FastifyInstance; shelf: EditionShelf }> {
  const app = fastify({
    logger: hubLogger(log.level, log.stream) ?? false,
    bodyLimit: 64 * 1024,
    requestTimeout: 120_000,
    forceCloseConnections: true,
    trustProxy,
    routerOptions: { maxParamLength: 120 },
    // What a client sends that is no HTTP is answered in the same form.
    frameworkErrors: (error, _request, reply) => void refuse(reply as unknown as FastifyReply, codeOf(error)),
  });
  tellOnUnknownRoutes(app);
  const shelf = editionShelf(trees);
  await app.register(helmet, SECURITY_HEADERS);
  app.addHook('onRequest', async (request, reply) => {
    if (hub && !isCrewPath(request.url)) reply.header(HUB_HEADER, 'yes');
    if (ALLOWED.includes(request.method) || (hub && isCrewPath(request.url))) return;
    return refuse(reply.header('allow', ALLOWED.join(', ')), 'not-taken-here');
  });
  setAnswers(app, apps, hub !== undefined);
  if (hub) await serveHub(app, hub, shelf);
  serveEditions(app, shelf);
  serveTreeSources(app, trees);
  await serveApps(app, apps);
  return { app, shelf };
}

/** Starts the service. Rejects with the system's error where the port cannot be had (`EADDRINUSE`, `EACCES`). */
export async function startServer({ port, host, ...service }: ServerOptions): Promise<RunningServer> {
  const trees = service.trees ?? SHIPPED_TREES;
  if (!existsSync(trees)) throw new Error(`There is no folder of trees at ${trees}.`);
  const { app, shelf } = await buildServer(service);
  await app.listen({ port, host });
  const address = app.server.address();
  const taken = typeof address === 'object' && address ? address.port : port;
  const shown = host === '0.0.0.0' || host === '::' ? 'localhost' : host.includes(':') ? `[${host}]` : host;
  return { url: `http://${shown}:${taken}`, shelf, close: () => app.close() };
}
