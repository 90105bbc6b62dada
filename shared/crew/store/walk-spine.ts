import type { WalkRow } from './hub-tables.ts';

/** A line of a walk by what holds it in its place. */
export type Placed = { readonly seq: number; readonly hash: string; readonly before: string; readonly forked: boolean; readonly type: string };

/** The lines of a walk that are there, in whatever order they came, and where another belongs. */
export class WalkSpine {
  readonly #at = new Map<number, Placed[]>();

  add(line: Placed): void {
    const list = this.#at.get(line.seq);
    if (list) list.push(line);
    else this.#at.set(line.seq, [line]);
  }

  /**
   * `already`: it is there. `forked`: another line stands at its place, or the lines beside it belong to another run. `free` otherwise; on a
   * log that was carried on in one place alone, lines are never forked, whatever order they come in.
   */
  place({ seq, hash, before }: Pick<Placed, 'seq' | 'hash' | 'before'>): 'already' | 'forked' | 'free' {
    const here = this.#at.get(seq) ?? [];
    if (here.some((line) => line.hash === hash)) return 'already';
    if (here.length > 0) return 'forked';
    const ahead = this.#at.get(seq - 1) ?? [];
    if (ahead.length > 0 && !ahead.some((line) => line.hash === before && !line.forked)) return 'forked';
    const behind = this.#at.get(seq + 1) ?? [];
    if (behind.length > 0 && !behind.some((line) => line.before === hash && !line.forked)) return 'forked';
    return 'free';
  }

  /** Takes a walk's row along the run of lines as far as it goes without a gap. */
  advance(row: Pick<WalkRow, 'length' | 'head' | 'closed'>): void {
    for (;;) {
      const next = (this.#at.get(row.length) ?? []).filter(({ before }) => before === row.head);
      const line = next.find(({ forked }) => !forked) ?? next[0];
      if (!line) return;
      row.length += 1;
      row.head = line.hash;
      row.closed = line.type === 'closed' ? 1 : 0;
    }
  }
}
