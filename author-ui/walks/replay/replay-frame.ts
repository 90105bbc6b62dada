import type { Situation } from '../../../engine/bench/index.ts';
import type { QuantityKindName } from '../../../engine/quantity/index.ts';
import type { WalkReplay } from '../../../engine/review/index.ts';
import type { Suspects } from '../../../engine/suspects/index.ts';
import {
  drawnCircuit,
  type LogProblem,
  type PathEntry,
  type PutBackItem,
  type ScaleBand,
  stepKey,
  type WalkEvent,
  type WalkLine,
  type WalkPhase,
} from '../../../engine/walk/index.ts';
import type { ScaleMark } from '../../../shared/ui/band-scale.tsx';

/** The scale of the open reading as it stood after a line: the bands with their numbers for that house then. */
export type FrameScale = { readonly kind: QuantityKindName; readonly unit: string; readonly bands: readonly ScaleBand[]; readonly mark?: ScaleMark };

/** A walk as it stood after one line of its log, as plain data. */
export type Frame = {
  readonly seq: number;
  readonly time: string;
  readonly event: WalkEvent;
  /** Minutes from the first line, pauses taken out. */
  readonly minutes: number;
  readonly phase: WalkPhase;
  readonly tree: string;
  readonly step?: { readonly id: string; readonly title: string };
  readonly path: readonly PathEntry[];
  readonly scale?: FrameScale;
  readonly circuit?: { readonly bench: string; readonly situation: Situation; readonly others: readonly string[] };
  readonly leads?: { readonly red: string; readonly black: string };
  readonly putBack: readonly PutBackItem[];
};

/** What was still possible after a line: the likeliest first. */
export type FrameSuspects = Pick<Suspects, 'faults' | 'nothingWrong' | 'unknown' | 'excluded'>;

export type ReplayedFrames = {
  readonly frames: readonly Frame[];
  readonly problems: readonly LogProblem[];
};

/** Everything that the replay's page draws, line by line. */
export const framesOf = (replay: WalkReplay): ReplayedFrames => ({
  frames: replay.frames.flatMap(({ at }) => frameAt(replay, at) ?? []),
  problems: replay.problems,
});

function frameAt(replay: WalkReplay, at: number): Frame | undefined {
  const frame = replay.frames[at];
  const view = replay.view(at);
  const after = replay.log.lines[at]?.after;
  if (!frame || !view || !after) return undefined;
  const { line, minutes } = frame;
  const { step, tree } = view;
  const scale = scaleAfter(replay, at, line);
  const drawn = drawnCircuit(after);
  const [red, black] = step?.kind === 'reading' ? (step.across ?? []) : [];
  return {
    seq: line.seq,
    time: line.time,
    event: line.event,
    minutes,
    phase: view.phase,
    tree: tree.name,
    ...(step && { step: { id: step.id, title: step.title } }),
    path: view.path,
    ...(scale && { scale }),
    ...(drawn && { circuit: { bench: drawn.name, situation: drawn.situation, others: drawn.others } }),
    ...(red !== undefined && black !== undefined && { leads: { red, black } }),
    putBack: view.putBack,
  };
}

/** What was read stands in the log with the numbers that the tech was shown; before it is read, the bands are those of the house as known then. */
function scaleAfter(replay: WalkReplay, at: number, { event }: WalkLine): FrameScale | undefined {
  const view = replay.view(at);
  const gauge = view?.step && replay.edition.compiled.steps.get(stepKey(view.tree.name, view.step.id))?.gauge;
  if (!view?.scale || !gauge) return undefined;
  const { unit, bands } = view.scale;
  const told = event.type === 'read' || event.type === 'rechecked' ? event : undefined;
  const judged = told?.judged ?? view.scale.reading;
  const leads = new Map(bands.map(({ on, leadsTo }) => [on, leadsTo]));
  const typed = told?.typed ?? view.path.at(-1)?.typed;
  return {
    kind: gauge.step.takes,
    unit,
    bands: judged ? judged.bands.map((band) => ({ ...band, leadsTo: leads.get(band.on) ?? band.on })) : bands,
    ...(judged && { mark: { si: judged.si, text: typed ?? '', halfWidth: judged.halfWidth } }),
  };
}
