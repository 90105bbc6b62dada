import { minutesBetween, type PutBackItem, replayLog, viewOf, type Walk, type WalkLine } from '../../engine/walk/index.ts';

/** What a report tells beyond the view: when, who, where, and what was put back. */
export type ReportData = {
  readonly opened: string;
  /** From the first entry to the last, without the pauses; at least one. */
  readonly minutes: number;
  readonly site?: string;
  readonly by?: string;
  readonly putBack: readonly { readonly item: PutBackItem; readonly time: string }[];
  readonly cautionsRead: number;
  readonly reasons: readonly string[];
};

export function reportData(walk: Walk, lines: readonly WalkLine[]): ReportData {
  const { by, site } = walk.snapshot.context.opened;
  const putBack = lines.flatMap(({ event, time }, index) => {
    if (event.type !== 'put-back') return [];
    const before = replayLog(walk.edition, lines.slice(0, index)).walk;
    const item = viewOf(before).putBack.find(({ key }) => key === event.item);
    return item ? [{ item, time }] : [];
  });
  return {
    opened: lines[0]?.time ?? '',
    minutes: workedMinutes(lines),
    putBack,
    cautionsRead: lines.filter(({ event }) => event.type === 'caution-read').length,
    reasons: lines.flatMap(({ event }) => (event.type === 'could-not' && event.why !== undefined ? [event.why] : [])),
    ...(site !== undefined && { site }),
    ...(by !== undefined && { by }),
  };
}

function workedMinutes(lines: readonly WalkLine[]): number {
  let worked = 0;
  let paused = false;
  for (const [index, line] of lines.entries()) {
    const before = lines[index - 1];
    if (before && !paused) worked += minutesBetween(before, line);
    if (line.event.type === 'paused') paused = true;
    if (line.event.type === 'resumed') paused = false;
  }
  return Math.max(1, Math.round(worked));
}
