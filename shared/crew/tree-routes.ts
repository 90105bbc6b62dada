import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { listTreeSources, type SourceFile } from './tree-sources.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.mdx': 'text/plain; charset=utf-8',
  '.yaml': 'text/plain; charset=utf-8',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.svg': 'image/svg+xml',
  '.webp': 'image/webp',
};

/**
 * `/trees/`, the list of sources, and each of them as it stands on disk. A request's path is only ever looked up in that list,
 * never joined to a folder, so nothing outside the list can be reached.
 */
export function serveTreeSources(app: FastifyInstance, treesDir: string): void {
  async function send(reply: FastifyReply, files: readonly SourceFile[], path: string): Promise<FastifyReply> {
    const file = files.find((candidate) => candidate.path === path);
    if (!file) {
      reply.callNotFound();
      return reply;
    }
    const type = TYPES[extname(file.path)] ?? 'application/octet-stream';
    return reply
      .header('cache-control', 'no-cache')
      .type(type)
      .send(await readFile(join(treesDir, file.path)));
  }

  app.get('/trees/', async (_request, reply) => reply.header('cache-control', 'no-cache').send(await listTreeSources(treesDir)));

  app.get<{ Params: { file: string } }>('/trees/:file', async (request, reply) => {
    const { trees } = await listTreeSources(treesDir);
    return send(reply, trees, request.params.file);
  });

  app.get<{ Params: { folder: string; file: string } }>('/trees/:folder/:file', async (request, reply) => {
    const { benches, figures } = await listTreeSources(treesDir);
    return send(reply, [...benches, ...figures], `${request.params.folder}/${request.params.file}`);
  });
}
