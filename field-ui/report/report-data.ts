import { type PutBackItem, replayLog, viewOf, type Walk, type WalkLine } from '../../engine/walk/index.ts';

/** What a report tells beyond the view: when, who, where, and what was put back. */
export type ReportData = {
  readonly opened: string;
  readonly last: string;
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
    last: lines.at(-1)?.time ?? '',
    putBack,
    cautionsRead: lines.filter(({ event }) => event.type === 'caution-read').length,
    reasons: lines.flatMap(({ event }) => (event.type === 'could-not' && event.why !== undefined ? [event.why] : [])),
    ...(site !== undefined && { site }),
    ...(by !== undefined && { by }),
  };
}

/** Minutes between two moments, at least one. */
export const minutesBetween = (from: string, to: string): number => Math.max(1, Math.round((Date.parse(to) - Date.parse(from)) / 60_000));
