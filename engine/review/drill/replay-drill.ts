import { failure, type Result, success } from '../../result.ts';
import type { WalkableEdition } from '../../walk/index.ts';
import { type DrillProblem, drillGround } from './drill-ground.ts';
import { type DrillRecord, drillRecordSchema } from './drill-record.ts';
import { beginDrill, type DrillRun, takeMove } from './drill-run.ts';

export type RecordProblem =
  | { readonly code: 'not-a-record'; readonly detail: string }
  | { readonly code: 'not-startable'; readonly problem: DrillProblem }
  | { readonly code: 'played-otherwise'; readonly line: number };

/** Reads a record from outside. */
export function readDrillRecord(input: unknown): Result<DrillRecord, RecordProblem> {
  const parsed = drillRecordSchema.safeParse(input);
  if (parsed.success) return success(parsed.data);
  const issue = parsed.error.issues[0];
  return failure({ code: 'not-a-record', detail: issue ? `${issue.path.join('.') || 'record'}: ${issue.message}` : 'record' });
}

/** A drill as its record gives it. Where a line comes out otherwise, the run up to it and which line it was. */
export function replayDrill(
  edition: WalkableEdition,
  record: DrillRecord,
): Result<{ readonly run: DrillRun; readonly problem?: RecordProblem }, RecordProblem> {
  const ground = drillGround(edition, record.task);
  if (!ground.ok) return failure({ code: 'not-startable', problem: ground.problem });
  let run = beginDrill(ground.value, record.id, record.begun, record.by);
  for (const [i, line] of record.lines.entries()) {
    const taken = takeMove(run, line.move, line);
    if (taken.line === undefined || taken.line.refused !== line.refused || taken.line.shown !== line.shown)
      return success({ run, problem: { code: 'played-otherwise', line: i } });
    run = taken.run;
  }
  return success({ run });
}
