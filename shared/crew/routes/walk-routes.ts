import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { MOST_UPLOAD_BYTES, standingRequestSchema, uploadRequestSchema, walkQuerySchema } from '../../sync/wire/walk-wire.ts';
import type { Hub } from '../hub.ts';
import { refuse } from '../hub-refusal.ts';
import { callerOf } from '../roles/guard.ts';
import { keepEdition, knownEditions } from '../store/edition-store.ts';
import { asideLines, mainRun, sumUpDue, sumUpWalk } from '../store/sum-up-walk.ts';
import { standingsOf, takeLines } from '../store/take-lines.ts';
import { listWalks, readCursor, walkChanges, walkSummary } from '../store/walk-query.ts';
import { checkEdition } from './crew-edition-routes.ts';
import { readBody, readLinesBody, readQuery } from './read-request.ts';

const LINES_A_PAGE = 2_000;
const DUE_AT_ONCE = 20;

const linesQuery = z.strictObject({ from: z.coerce.number().int().min(0).max(1_000_000).default(0) });
const changesQuery = z.strictObject({
  after: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).default(0),
  most: z.coerce.number().int().min(1).max(500).default(100),
});

/** The editions of an upload's lines, as far as they say one. */
function editionsIn(lines: readonly unknown[]): readonly string[] {
  const hashes = new Set<string>();
  for (const line of lines)
    if (typeof line === 'object' && line !== null && 'edition' in line && typeof line.edition === 'string' && /^[0-9a-f]{64}$/.test(line.edition))
      hashes.add(line.edition);
  return [...hashes];
}

/** Walks in from the phones, and out to who reviews them. */
export function serveWalks(app: FastifyInstance, hub: Hub): void {
  const { store, editions, shelf, now, metrics } = hub;

  /** What ships changes with this copy; what has been walked on is kept. */
  const keepShipped = async (lines: readonly unknown[]): Promise<void> => {
    const hashes = editionsIn(lines);
    const known = await knownEditions(store, hashes);
    for (const hash of hashes) {
      if (known.has(hash)) continue;
      const text = await shelf.text(hash);
      const checked = text === undefined ? undefined : checkEdition(hash, JSON.parse(text));
      if (checked?.ok) await keepEdition(store, checked.value, now());
    }
  };

  app.post('/crew/walks/lines', { bodyLimit: MOST_UPLOAD_BYTES }, async (request, reply) => {
    const body = readLinesBody(uploadRequestSchema, request, reply);
    if (!body) return reply;
    await keepShipped(body.lines);
    const { outcomes, standings, closed } = await takeLines(store, callerOf(request), body.lines, body.tails, now());
    metrics.lines(outcomes);
    // What is taken is taken: summing up is made good later where it fails now.
    for (const walk of closed) await sumUpWalk(store, editions, walk).catch((error: unknown) => request.log.error({ err: error }, 'not summed up'));
    const forked = outcomes.some(({ outcome }) => outcome === 'forked');
    const refused = outcomes.some(({ outcome }) => outcome === 'refused');
    const answer = { outcomes, standings };
    if (forked)
      return reply
        .code(409)
        .send({ code: 'forked', error: 'Another line stands at the place of some of these. All are kept; the walk is marked.', ...answer });
    if (refused)
      return reply.code(422).send({ code: 'line-refused', error: 'Some lines cannot be taken; their outcomes say why. The others were.', ...answer });
    return answer;
  });

  app.post('/crew/walks/standings', async (request, reply) => {
    const body = readBody(standingRequestSchema, request, reply);
    if (!body) return reply;
    return { standings: await standingsOf(store, callerOf(request), body.walks) };
  });

  app.get('/crew/walks', async (request, reply) => {
    const query = readQuery(walkQuerySchema, request, reply);
    if (!query) return reply;
    if (query.after !== undefined && !readCursor(query.after)) return refuse(reply, 'not-understood', { where: 'after' });
    await sumUpDue(store, editions, DUE_AT_ONCE);
    return listWalks(store, callerOf(request), query);
  });

  app.get<{ Params: { walk: string } }>('/crew/walks/:walk/lines', async (request, reply) => {
    const query = readQuery(linesQuery, request, reply);
    if (!query) return reply;
    const caller = callerOf(request);
    const { walk } = request.params;
    if (!(await walkSummary(store, caller, walk))) return refuse(reply, 'not-there');
    await sumUpWalk(store, editions, walk);
    const found = await walkSummary(store, caller, walk);
    if (!found) return refuse(reply, 'not-there');
    const { head, ...summary } = found;
    const lines = await mainRun(store, walk, head, summary.length, query.from, LINES_A_PAGE);
    const next = query.from + lines.length;
    const aside = query.from === 0 && summary.lines > summary.length ? await asideLines(store, walk, head, summary.length) : [];
    return { summary, lines, aside, ...(next < summary.length && lines.length > 0 && { next }) };
  });

  app.get('/crew/changes', async (request, reply) => {
    const query = readQuery(changesQuery, request, reply);
    if (!query) return reply;
    await sumUpDue(store, editions, DUE_AT_ONCE);
    return walkChanges(store, callerOf(request), query.after, query.most);
  });
}
