import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import helmet from '@fastify/helmet';
import fastify, { type FastifyInstance } from 'fastify';
import { serveApps, unbuiltApp } from './app-routes.ts';
import { serveEditions } from './edition-routes.ts';
import { type EditionShelf, editionShelf } from './edition-shelf.ts';
import { SECURITY_HEADERS } from './security-headers.ts';
import { serveTreeSources } from './tree-routes.ts';

const fromHere = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** The trees that come with the repository. */
export const SHIPPED_TREES = fromHere('../../trees');

/** Where the build leaves the two apps: `field/` and `desk/`. */
export const BUILT_APPS = fromHere('../../.build');

export type ServerOptions = {
  /** TCP port; 0 for any free one. */
  readonly port: number;
  readonly host: string;
  /** Folder of tree files. */
  readonly trees?: string;
  /** Folder of the built apps. */
  readonly apps?: string;
};

export type RunningServer = {
  /** Address without a slash at its end, such as `http://127.0.0.1:4460`. */
  readonly url: string;
  readonly shelf: EditionShelf;
  close(): Promise<void>;
};

const ALLOWED = ['GET', 'HEAD'];

/** The service without a socket: answers `inject`ed requests. Everything it has can only be read. */
export async function buildServer(trees: string, apps: string): Promise<{ app: FastifyInstance; shelf: EditionShelf }> {
  const app = fastify({ bodyLimit: 1024, requestTimeout: 30_000, forceCloseConnections: true, routerOptions: { maxParamLength: 120 } });
  const shelf = editionShelf(trees);
  await app.register(helmet, SECURITY_HEADERS);
  app.addHook('onRequest', async (request, reply) => {
    if (ALLOWED.includes(request.method)) return;
    await reply.code(405).header('allow', ALLOWED.join(', ')).send({ error: 'This service can only be read: use GET or HEAD.' });
  });
  app.setErrorHandler<Error & { statusCode?: number }>(async (error, _request, reply) => {
    const code = error.statusCode ?? 500;
    if (code >= 500) console.error(error);
    await reply
      .code(code)
      .send({ error: code >= 500 ? 'The service could not answer. Its own window says why.' : 'That is not something this service can answer.' });
  });
  app.setNotFoundHandler(async (request, reply) => {
    const unbuilt = unbuiltApp(request.url, apps);
    if (unbuilt) return reply.code(503).send({ error: `The ${unbuilt} app is not built yet: run npm run build.` });
    return reply.code(404).send({ error: 'There is nothing at this address.' });
  });
  serveEditions(app, shelf);
  serveTreeSources(app, trees);
  await serveApps(app, apps);
  return { app, shelf };
}

/** Starts the service. Rejects with the system's error where the port cannot be had (`EADDRINUSE`, `EACCES`). */
export async function startServer({ port, host, trees = SHIPPED_TREES, apps = BUILT_APPS }: ServerOptions): Promise<RunningServer> {
  if (!existsSync(trees)) throw new Error(`There is no folder of trees at ${trees}.`);
  const { app, shelf } = await buildServer(trees, apps);
  await app.listen({ port, host });
  const address = app.server.address();
  const taken = typeof address === 'object' && address ? address.port : port;
  const shown = host === '0.0.0.0' || host === '::' ? 'localhost' : host.includes(':') ? `[${host}]` : host;
  return { url: `http://${shown}:${taken}`, shelf, close: () => app.close() };
}
