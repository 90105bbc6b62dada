import papaparse from 'papaparse';
import type { WalkEvent } from '../walk/index.ts';
import { EVENT_COLUMNS, WALK_COLUMNS } from './exchange-words.ts';
import { type ExportedWalk, type WalkRow, walkRows } from './walk-rows.ts';
import { xmlSafe } from './xml-text.ts';

type Cell = string | number | boolean | null;

/** RFC 4180, CRLF. A text that a spreadsheet would run as a formula gets an apostrophe before it; numbers stay numbers. */
function csv(columns: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const plain = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? xmlSafe(cell) : cell)));
  return `${papaparse.unparse({ fields: [...columns], data: plain }, { newline: '\r\n', escapeFormulae: /^\s*[=+\-@\t\r\n\uFF0B\uFF0D\uFF1D\uFF20]/ })}\r\n`;
}

const LEFT_OUT = new Set(['type', 'typed', 'judged']);

/** What an event says beyond its columns, as `name: value`. */
const detailOf = (event: WalkEvent): string =>
  Object.entries(event)
    .filter(([name, value]) => !LEFT_OUT.has(name) && value !== undefined)
    .map(([name, value]) => `${name}: ${String(value)}`)
    .join('; ');

const rounded = (minutes: number): number => Math.round(minutes * 1000) / 1000;

function eventRow({ line, minutes, place, next, on, typed, judged, trusted }: WalkRow, by: string | undefined): readonly Cell[] {
  const at = place ?? next;
  return [
    line.walk,
    line.seq,
    line.time,
    rounded(minutes),
    by ?? null,
    line.edition,
    at?.tree ?? null,
    at?.step ?? null,
    at?.title ?? null,
    line.event.type,
    on ?? null,
    typed ?? null,
    judged?.si ?? null,
    judged?.unit ?? null,
    judged?.margin ?? null,
    judged ? judged.reaches.length > 0 : null,
    detailOf(line.event),
    trusted,
  ];
}

/** A row an event of each walk. */
export function eventsCsv(walks: readonly ExportedWalk[]): string {
  return csv(
    EVENT_COLUMNS,
    walks.map(walkRows).flatMap(({ rows, by }) => rows.map((row) => eventRow(row, by))),
  );
}

/** A row a walk. */
export function walksCsv(walks: readonly ExportedWalk[]): string {
  return csv(
    WALK_COLUMNS,
    walks.map(walkRows).map(({ walk, rows, replay, minutes, by }) => {
      const { context } = replay.walk.snapshot;
      const { root } = walk.edition.compiled;
      const finding = context.path.findLast((entry) => entry.kind === 'finding');
      const [first, last] = [rows[0]?.line, rows.at(-1)?.line];
      return [
        first?.walk ?? null,
        by ?? null,
        context.opened.site ?? null,
        context.opened.drill ?? false,
        walk.edition.hash,
        root.name,
        root.title,
        first?.time ?? null,
        last?.time ?? null,
        rounded(minutes),
        rows.length,
        context.path.length,
        finding?.title ?? null,
        context.outcome ?? null,
        rows.filter(({ trusted }) => trusted).length,
      ];
    }),
  );
}
