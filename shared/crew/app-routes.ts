import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance, FastifyReply } from 'fastify';

const fromHere = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

const FONTS = fromHere('../../node_modules/@fontsource/b612/files');

/** The page of two doors, and the files it is made of. Each lies in its own place in the repository. */
const FRONT_DOOR = [
  { address: '/', folder: fromHere('front-door'), file: 'index.html' },
  { address: '/front-door.css', folder: fromHere('front-door'), file: 'front-door.css' },
  { address: '/theme.css', folder: fromHere('../ui'), file: 'theme.css' },
  { address: '/mark.svg', folder: fromHere('../ui'), file: 'mark.svg' },
  { address: '/fonts/b612-latin-400-normal.woff2', folder: FONTS, file: 'b612-latin-400-normal.woff2' },
  { address: '/fonts/b612-latin-700-normal.woff2', folder: FONTS, file: 'b612-latin-700-normal.woff2' },
] as const;

const APPS = ['field', 'desk'] as const;

/** File names that the build puts a hash of the contents in; everything else may change under its name. */
const HASHED = /[/\\]assets[/\\][^/\\]+-[\w-]{8,}\.\w+$/;

function sendUncached(reply: FastifyReply, file: string, folder: string): FastifyReply {
  return reply.header('cache-control', 'no-cache').sendFile(file, folder, { cacheControl: false });
}

/** `/`, `/field/` and `/desk/`. */
export async function serveApps(app: FastifyInstance, apps: string): Promise<void> {
  await app.register(fastifyStatic, { root: fromHere('front-door'), serve: false, dotfiles: 'deny' });
  for (const { address, folder, file } of FRONT_DOOR) app.get(address, async (_request, reply) => sendUncached(reply, file, folder));

  for (const name of APPS) {
    app.get(`/${name}`, async (_request, reply) => reply.redirect(`/${name}/`, 308));
    await app.register(fastifyStatic, {
      root: join(apps, name),
      prefix: `/${name}/`,
      decorateReply: false,
      dotfiles: 'deny',
      cacheControl: false,
      setHeaders: (response, path) => {
        response.setHeader('cache-control', HASHED.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
    });
  }
}

/** The app that an address belongs to, where that app is not built; undefined where it is, or where the address is no app's. */
export function unbuiltApp(address: string, apps: string): string | undefined {
  return APPS.find((name) => address.startsWith(`/${name}/`) && !existsSync(join(apps, name, 'index.html')));
}
