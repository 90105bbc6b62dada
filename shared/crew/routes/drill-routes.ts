import type { FastifyInstance } from 'fastify';
import { failure, type Result, success } from '../../../engine/result.ts';
import { type DrillTask, drillGround } from '../../../engine/review/index.ts';
import { drillRequestSchema, drillRunRequestSchema } from '../../sync/wire/drill-wire.ts';
import type { Hub } from '../hub.ts';
import { refuse } from '../hub-refusal.ts';
import { callerOf } from '../roles/guard.ts';
import { giveDrill, listDrills, putRun, runsOf, stopDrill } from '../store/drill-store.ts';
import type { CheckedEdition } from '../store/edition-store.ts';
import { readBody, readLinesBody } from './read-request.ts';

/** Bytes of one drill as it was done: some thousand moves. */
const MOST_RUN_BYTES = 256 * 1024;

/** A name as every database keeps it. */
const ID = /^[^\p{Cc}\p{Cs}]{1,80}$/u;

/** Drills given to the crew, and what came of them. */
export function serveDrills(app: FastifyInstance, { store, editions, now }: Hub): void {
  /** Whether the drill can be done: a phone without a signal is the wrong place to find out. */
  async function groundOf(
    task: Omit<DrillTask, 'id'>,
  ): Promise<Result<CheckedEdition, { readonly code: 'edition-unknown' | 'drill-not-good'; readonly where?: string }>> {
    const edition = await editions.get(task.edition);
    if (!edition) return failure({ code: 'edition-unknown' });
    const ground = drillGround(edition, { ...task, id: 'new' });
    if (!ground.ok) return failure({ code: 'drill-not-good', where: ground.problem.code });
    return success({ hash: edition.hash, edition: edition.compiled.edition });
  }

  app.post('/crew/drills', async (request, reply) => {
    const body = readBody(drillRequestSchema, request, reply);
    if (!body) return reply;
    const ground = await groundOf(body.task);
    if (!ground.ok) return refuse(reply, ground.problem.code, { where: ground.problem.where });
    const given = await giveDrill(store, callerOf(request), body.task, ground.value, body.people, now());
    return given.ok ? reply.code(201).send(given.value) : refuse(reply, given.problem);
  });

  app.get('/crew/drills', async (request) => ({ drills: await listDrills(store, callerOf(request)) }));

  app.delete<{ Params: { drill: string } }>('/crew/drills/:drill', async (request, reply) => {
    const stopped = await stopDrill(store, callerOf(request), request.params.drill, now());
    return stopped.ok ? { done: true } : refuse(reply, stopped.problem);
  });

  app.put<{ Params: { drill: string; run: string } }>('/crew/drills/:drill/runs/:run', { bodyLimit: MOST_RUN_BYTES }, async (request, reply) => {
    const body = readLinesBody(drillRunRequestSchema, request, reply);
    if (!body) return reply;
    const { drill, run } = request.params;
    if (body.run.id !== run || !ID.test(run)) return refuse(reply, 'not-understood', { where: 'run.id' });
    const put = await putRun(store, callerOf(request), { drill, run }, body.run, now());
    return put.ok ? { done: true } : refuse(reply, put.problem);
  });

  app.get<{ Params: { drill: string } }>('/crew/drills/:drill/runs', async (request, reply) => {
    const runs = await runsOf(store, callerOf(request), request.params.drill);
    return runs ? { runs } : refuse(reply, 'not-there');
  });
}
