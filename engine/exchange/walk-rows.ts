import {
  type Judged,
  minutesBetween,
  type Replay,
  replayLog,
  type Walk,
  type WalkableEdition,
  type WalkEvent,
  type WalkLine,
} from '../walk/index.ts';

/** One walk to give out: its log, and the edition that it was walked on. */
export type ExportedWalk = {
  readonly edition: WalkableEdition;
  readonly lines: readonly WalkLine[];
  /** Who walked it, where the log does not say. */
  readonly by?: string;
};

/** Where a walk stood. */
export type RowPlace = { readonly key: string; readonly tree: string; readonly step: string; readonly title: string; readonly kind: string };

/** One line of a log with what the walk knew of it. */
export type WalkRow = {
  readonly line: WalkLine;
  /** Minutes since the line before: by the clock on the wall or by the one that never runs back, whichever says longer. */
  readonly minutes: number;
  /** The step that the event was about. */
  readonly place?: RowPlace;
  /** The step that the walk stands on after it. */
  readonly next?: RowPlace;
  /** Whether the event left the step, or came to it anew. */
  readonly moved: boolean;
  /** The way on that was shown or taken. */
  readonly on?: string;
  readonly typed?: string;
  readonly judged?: Judged;
  /** A log that was changed or has a gap is not trusted from there on: the line is given as it stands. */
  readonly trusted: boolean;
};

export type WalkRows = {
  readonly walk: ExportedWalk;
  readonly by?: string;
  readonly replay: Replay;
  readonly rows: readonly WalkRow[];
  readonly minutes: number;
};

function placeOf(walk: Walk): RowPlace | undefined {
  const { at } = walk.snapshot.context;
  const step = at === undefined ? undefined : walk.edition.compiled.steps.get(at);
  return step && { key: step.key, tree: step.tree.name, step: step.step.id, title: step.step.title, kind: step.step.kind };
}

const minutesSince = (before: WalkLine | undefined, line: WalkLine): number => (before ? minutesBetween(before, line) : 0);

const typedOf = (event: WalkEvent): string | undefined => ('typed' in event ? event.typed : undefined);
const judgedOf = (event: WalkEvent): Judged | undefined => ('judged' in event ? event.judged : undefined);

function rowOf(line: WalkLine, minutes: number, before: Walk, after: Walk): WalkRow {
  const [was, is] = [before.snapshot.context, after.snapshot.context];
  const [place, next] = [placeOf(before), placeOf(after)];
  const entry = is.path.length > was.path.length ? is.path.at(-1) : undefined;
  const on =
    line.event.type === 'rechecked'
      ? is.rechecks.at(-1)?.on
      : (entry?.on ?? (line.event.type === 'read' || line.event.type === 'looked' || line.event.type === 'told' ? is.verdict?.on : undefined));
  const typed = typedOf(line.event) ?? entry?.typed;
  const judged = judgedOf(line.event) ?? entry?.judged;
  return {
    line,
    minutes,
    ...(place && { place }),
    ...(next && { next }),
    moved: was.at !== is.at || was.path.length !== is.path.length,
    ...(on !== undefined && { on }),
    ...(typed !== undefined && { typed }),
    ...(judged && { judged }),
    trusted: true,
  };
}

/** Replays a log and tells it line by line. Lines that cannot be trusted come last, as they stand. */
export function walkRows(walk: ExportedWalk): WalkRows {
  const rows: WalkRow[] = [];
  const replay = replayLog(walk.edition, walk.lines, (line, before, after) => {
    rows.push(rowOf(line, minutesSince(rows.at(-1)?.line, line), before, after));
  });
  for (const line of walk.lines.slice(rows.length)) {
    const [typed, judged] = [typedOf(line.event), judgedOf(line.event)];
    rows.push({
      line,
      minutes: minutesSince(rows.at(-1)?.line, line),
      moved: false,
      ...(typed !== undefined && { typed }),
      ...(judged && { judged, on: judged.on }),
      trusted: false,
    });
  }
  const by = replay.walk.snapshot.context.opened.by ?? walk.by;
  return { walk, replay, rows, minutes: rows.reduce((sum, row) => sum + row.minutes, 0), ...(by !== undefined && { by }) };
}
