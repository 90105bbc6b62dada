import { replayLog, viewOf, type WalkableEdition, type WalkLine, walkLineSchema } from '../../../engine/walk/index.ts';
import type { WalkFlag } from '../../../shared/sync/wire/walk-wire.ts';
import type { LocalSummary } from './walks-db.ts';

export type LogText = { readonly lines: readonly unknown[]; readonly aside: readonly unknown[] };

const readable = (lines: readonly unknown[]): readonly WalkLine[] =>
  lines.flatMap((line) => {
    const parsed = walkLineSchema.safeParse(line);
    return parsed.success ? [parsed.data] : [];
  });

/** What a list shows of a log; without its edition, what its lines say by themselves. Undefined where no line can be read. */
export function sumUpLog({ lines, aside }: LogText, edition: WalkableEdition | undefined, arrived: string): LocalSummary | undefined {
  const known = readable(lines);
  const [first] = known;
  const last = known.at(-1);
  if (!first || !last) return undefined;
  const opened = first.event.type === 'opened' ? first.event : undefined;
  const by = opened?.by;
  const own = edition ? replayed(edition, lines) : { flags: ['unknown-edition'] as const, closed: last.event.type === 'closed' };
  return {
    walk: first.walk,
    edition: first.edition,
    person: by ?? '',
    personName: by ?? '',
    ...(by !== undefined && { by }),
    ...(opened?.site !== undefined && { site: opened.site }),
    drill: opened?.drill === true,
    opened: new Date(first.time).toISOString(),
    last: new Date(last.time).toISOString(),
    arrived,
    length: lines.length,
    lines: lines.length + aside.length,
    told: lines.length,
    ...own,
    flags: [...own.flags, ...(aside.length > 0 ? ['forked' as const] : [])],
  };
}

type Own = Pick<LocalSummary, 'closed'> & Partial<LocalSummary> & { readonly flags: readonly WalkFlag[] };

function replayed(edition: WalkableEdition, lines: readonly unknown[]): Own {
  const { walk, problems, readable: all, brokenAt } = replayLog(edition, lines);
  const view = viewOf(walk);
  const trusted = all.slice(0, brokenAt ?? lines.length);
  const finding = view.finding && view.step;
  const { root } = edition.compiled;
  return {
    tree: root.name,
    title: root.title,
    closed: view.phase === 'closed',
    phase: view.phase,
    ...(view.finding && { finding: view.finding.title }),
    ...(finding && { findingAt: `${view.tree.name}/${finding.id}` }),
    ...(view.outcome && { outcome: view.outcome }),
    ...(view.phase === 'closed' && { minutes: minutesOf(trusted) }),
    flags: problems.length > 0 ? ['does-not-replay'] : [],
  };
}

/** From the first line to the last, pauses taken out. A wall clock that was set back takes nothing off: the other clock went on. */
export function minutesOf(lines: readonly WalkLine[]): number {
  let paused = false;
  let sum = 0;
  for (const [at, line] of lines.entries()) {
    const before = lines[at - 1];
    if (before && !paused) sum += Math.max(0, Date.parse(line.time) - Date.parse(before.time), line.mono - before.mono);
    if (line.event.type === 'paused') paused = true;
    if (line.event.type === 'resumed') paused = false;
  }
  return sum / 60_000;
}
