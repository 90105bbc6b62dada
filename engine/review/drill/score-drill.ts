import { jumperKey } from '../../tree/index.ts';
import { type CircuitState, type PutBackItem, putBackItems, type SafetyConcern } from '../../walk/index.ts';
import { actsBetween } from './acts-between.ts';
import { type BestDrillPath, bestDrillPath } from './best-drill-path.ts';
import { clockMinutes } from './clock-minutes.ts';
import type { DrillGround } from './drill-ground.ts';
import type { DrillMove } from './drill-move.ts';
import type { DrillAnswer, DrillPathStep } from './drill-path.ts';
import { beginDrill, type DrillEnd, type DrillRun, probeOfMove, takeMove } from './drill-run.ts';
import { allAnswers, leftAfter } from './suspects-left.ts';

export type RefusedMove = { readonly line: number; readonly move: DrillMove; readonly concern: SafetyConcern };

/** What came of a drill, beside the best way. Everything that a screen or a report says of it. */
export type DrillScore = {
  readonly end: DrillEnd | undefined;
  /** The answer names the hidden fault, or what no reading tells from it. Undefined where no answer was given. */
  readonly right: boolean | undefined;
  readonly hidden: DrillAnswer;
  readonly path: readonly DrillPathStep[];
  /** By the model's count: what the readings and acts take, set-up included. */
  readonly minutes: number;
  readonly best: BestDrillPath;
  /** Places on the path of readings and looks after which as much was possible as before. A reading that proves points dead is none of them. */
  readonly toldNothing: readonly number[];
  /** What could still have been the answer when the answer was given, 'nothing wrong' included. */
  readonly left: readonly DrillAnswer[];
  readonly refused: readonly RefusedMove[];
  /** Temporary changes not taken back; not asked for in `tree` order, where putting back comes after the finding. */
  readonly leftInPlace: readonly PutBackItem[];
  /** Fuses that a move blew. */
  readonly blew: readonly string[];
  /** Minutes on the clock from the first to the last move. */
  readonly clock: number;
};

/** Compares a drill, ended or not, with the best way to the same fault. */
export function scoreDrill(run: DrillRun, best: BestDrillPath = bestDrillPath(run.ground)): DrillScore {
  const { ground, record, end, circuit } = run;
  const walkedOver = pathOf(ground, run);
  const found = ground.found.settings;
  const blownAsFound = beginDrill(ground, record.id, record.begun).blown;
  return {
    end,
    right: end?.how === 'named' ? isRight(end.faults, best.group) : undefined,
    hidden: ground.task.fault,
    path: walkedOver.path,
    minutes: walkedOver.path.reduce((sum, step) => sum + step.minutes, 0),
    best,
    toldNothing: walkedOver.toldNothing,
    left: walkedOver.left,
    refused: walkedOver.refused,
    leftInPlace: run.walk ? [] : putBackItems(circuit, found),
    blew: run.blown.filter((fuse) => !blownAsFound.includes(fuse)),
    clock: clockMinutes(record),
  };
}

function isRight(named: readonly string[], group: readonly DrillAnswer[]): boolean {
  return named.length === 0 ? group.includes(undefined) : named.every((fault) => group.includes(fault));
}

type WalkedOver = Pick<DrillScore, 'path' | 'toldNothing' | 'left' | 'refused'>;

/** The moves once more, with what each cost and told. */
function pathOf(ground: DrillGround, { record }: DrillRun): WalkedOver {
  const path: DrillPathStep[] = [];
  const toldNothing: number[] = [];
  const refused: RefusedMove[] = [];
  let left = allAnswers(ground);
  let run = beginDrill(ground, record.id, record.begun, record.by);
  for (const [line, { move, time, mono }] of record.lines.entries()) {
    const before = run;
    const taken = takeMove(run, move, { time, mono });
    run = taken.run;
    if (taken.refused) {
      const { refused: why } = taken;
      const concern = why.code === 'unsafe' ? why.concern : why.code === 'walk' && why.refusal.code === 'unsafe' ? why.refusal.concern : undefined;
      if (concern) refused.push({ line, move, concern });
      continue;
    }
    if (move.do === 'measure' || move.do === 'measure-at' || move.do === 'look') {
      const probe = probeOfMove(move);
      const shown = taken.line?.shown ?? '';
      // Read as dead with a proved meter: that is what it was for.
      const dead = before.circuit.meterProved && run.circuit.dead !== before.circuit.dead && probe.kind === 'reading' ? probe.across : undefined;
      const next = leftAfter(ground, left, probe, before.circuit);
      if (next.length === left.length && !dead) toldNothing.push(path.length);
      left = next;
      path.push({
        does: dead ? { kind: 'dead', across: dead } : { kind: 'probe', probe },
        minutes: dead ? ground.minutes.dead : ground.minutes.probe(probe),
        shown,
        left: left.length,
        line,
      });
    } else if (move.do === 'walk') {
      // A tree's reading was for proving its points dead once the walk has taken it as such.
      for (const { points } of provedBetween(before.circuit, run.circuit)) {
        const at = path.findLastIndex(({ does }) => does.kind === 'probe' && does.probe.kind === 'reading' && isSame(does.probe.across, points));
        const step = path[at];
        if (!step) continue;
        path[at] = { ...step, does: { kind: 'dead', across: points }, minutes: ground.minutes.dead };
        if (toldNothing.includes(at)) toldNothing.splice(toldNothing.indexOf(at), 1);
      }
      for (const action of actsBetween(before.circuit, run.circuit))
        path.push({ does: { kind: 'act', action }, minutes: ground.minutes.action(action), line });
    } else if (move.do !== 'name' && move.do !== 'give-up') {
      path.push({ does: { kind: 'act', action: move }, minutes: ground.minutes.action(move), line });
    }
  }
  return { path, toldNothing, left, refused };
}

const isSame = (one: readonly [string, string] | undefined, other: readonly [string, string]): boolean =>
  one !== undefined && jumperKey(...one) === jumperKey(...other);

const provedBetween = (before: CircuitState, after: CircuitState) =>
  after.dead.filter(({ points }) => !before.dead.some((proof) => isSame(proof.points, points)));
