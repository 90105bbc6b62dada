import { createHash } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { failure, type Result, success } from '../../../engine/result.ts';
import { editionHash, readEdition } from '../../../engine/walk/index.ts';
import { type ListedEdition, publishRequestSchema, withdrawRequestSchema } from '../../sync/wire/edition-wire.ts';
import { hashSchema } from '../../sync/wire/hash-schema.ts';
import type { Hub } from '../hub.ts';
import { refuse } from '../hub-refusal.ts';
import { seesAllWalks } from '../roles/caller.ts';
import { callerOf } from '../roles/guard.ts';
import {
  type CheckedEdition,
  currentEditions,
  editionText,
  isWalked,
  keepEdition,
  publicationsOf,
  publish,
  withdraw,
} from '../store/edition-store.ts';
import { readBody } from './read-request.ts';

/** Bytes of an edition, figures included. */
export const MOST_EDITION_BYTES = 4 * 1024 * 1024;

type EditionFault = { readonly code: 'not-an-edition' | 'not-its-hash'; readonly where?: string };

/** Reads an edition from outside, and that it is what its hash names. */
export function checkEdition(hash: string, input: unknown): Result<CheckedEdition, EditionFault> {
  try {
    const read = readEdition(input);
    if (!read.ok) return failure({ code: 'not-an-edition', where: JSON.stringify(read.problem).slice(0, 300) });
    return editionHash(read.value) === hash ? success({ hash, edition: read.value }) : failure({ code: 'not-its-hash' });
  } catch {
    // A text that is not Unicode has no canonical form, and so no hash.
    return failure({ code: 'not-an-edition', where: 'text that is not Unicode' });
  }
}

/** The crew's list: what was published, and what ships with this copy of trees that nobody has published. */
async function listOf({ store, shelf }: Hub) {
  const { entries, withdrawn } = await currentEditions(store);
  const published = new Set(entries.map(({ name }) => name));
  const gone = new Set(withdrawn.map(({ hash }) => hash));
  const shipped = (await shelf.current()).entries
    .filter(({ name, hash }) => !published.has(name) && !gone.has(hash))
    .map((entry): ListedEdition => ({ ...entry, from: 'shipped' }));
  return { entries: [...entries, ...shipped].sort((a, b) => (a.title < b.title ? -1 : 1)), withdrawn };
}

/** Editions out to the phones, and in from the desk. */
export function serveCrewEditions(app: FastifyInstance, hub: Hub): void {
  const { store, shelf, now, metrics } = hub;
  const textOf = async (hash: string): Promise<string | undefined> => (await editionText(store, hash)) ?? (await shelf.text(hash));

  app.get('/crew/editions', async (request, reply) => {
    const body = JSON.stringify(await listOf(hub));
    const mark = `"${createHash('sha256').update(body).digest('base64url')}"`;
    reply.header('etag', mark).header('cache-control', 'private, no-cache').header('vary', 'authorization, cookie');
    if (request.headers['if-none-match'] === mark) return reply.code(304).send();
    return reply.type('application/json; charset=utf-8').send(body);
  });

  app.get<{ Params: { hash: string } }>('/crew/editions/:hash', async (request, reply) => {
    const hash = hashSchema.safeParse(request.params.hash);
    const text = hash.success ? await textOf(hash.data) : undefined;
    if (text === undefined) return refuse(reply, 'not-there');
    return reply.header('cache-control', 'private, max-age=31536000, immutable').type('application/json; charset=utf-8').send(text);
  });

  app.get<{ Params: { tree: string } }>('/crew/trees/:tree/publications', async (request) => ({
    publications: await publicationsOf(store, request.params.tree),
  }));

  app.post('/crew/editions', { bodyLimit: MOST_EDITION_BYTES }, async (request, reply) => {
    const body = readBody(publishRequestSchema, request, reply);
    if (!body) return reply;
    const checked = checkEdition(body.hash, body.edition);
    if (!checked.ok) return refuse(reply, checked.problem.code, { where: checked.problem.where });
    const published = await publish(store, callerOf(request), checked.value, body, now());
    if (!published.ok) {
      const { code, ...more } = published.problem;
      return refuse(reply, code, more);
    }
    if (!published.value.stood) metrics.published();
    return reply.code(published.value.stood ? 200 : 201).send(published.value);
  });

  // From a tech's phone only what a walk was walked on; who gives drills may put what they are on here.
  app.put<{ Params: { hash: string } }>('/crew/editions/:hash', { bodyLimit: MOST_EDITION_BYTES }, async (request, reply) => {
    const body = readBody(z.unknown(), request, reply);
    if (body === undefined) return reply.sent ? reply : refuse(reply, 'not-understood');
    if (!seesAllWalks(callerOf(request)) && !(await isWalked(store, request.params.hash))) return refuse(reply, 'not-there');
    const checked = checkEdition(request.params.hash, body);
    if (!checked.ok) return refuse(reply, checked.problem.code, { where: checked.problem.where });
    await keepEdition(store, checked.value, now());
    return { done: true };
  });

  app.post<{ Params: { hash: string } }>('/crew/editions/:hash/withdrawal', async (request, reply) => {
    const body = readBody(withdrawRequestSchema, request, reply);
    if (!body) return reply;
    const { hash } = request.params;
    if (!hashSchema.safeParse(hash).success) return refuse(reply, 'not-there');
    // One that only ships is kept first: its walks must stay readable when this copy no longer has it.
    const shipped = (await editionText(store, hash)) === undefined ? await shelf.text(hash) : undefined;
    const checked = shipped === undefined ? undefined : checkEdition(hash, JSON.parse(shipped));
    const done = await withdraw(store, callerOf(request), checked?.ok ? checked.value : { hash }, body.why, now());
    return done.ok ? { done: true } : refuse(reply, done.problem);
  });
}
