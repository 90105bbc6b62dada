import { canonicalHash, type Edition, editionHash, type WalkLine, walkableEdition } from '../../../engine/walk/index.ts';
import { smallEdition } from '../../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../../engine/walk/testing/walk-driver.ts';

export const EDITION = smallEdition();
export const EDITION_HASH = editionHash(EDITION);
export const WALKABLE = walkableEdition(EDITION);

/** The sample edition with another title: another edition of the same tree. */
export function editionTitled(title: string): { readonly edition: Edition; readonly hash: string } {
  const edition = smallEdition();
  const tree = edition.trees[edition.root];
  if (tree) edition.trees[edition.root] = { ...tree, title };
  return { edition, hash: editionHash(edition) };
}

/** A call that ends fixed. */
export function closedWalk(id: string, by = 'Tam Tech', site = '12 Elm'): readonly WalkLine[] {
  const driver = new WalkDriver(WALKABLE, id);
  driver.must({ type: 'opened', by, site }).readCautions().must({ type: 'went-on' });
  driver.tell('wiring', 'own').read('27').act().look('runs');
  driver.must({ type: 'found' }, { type: 'repaired', done: true }).putAllBack();
  driver.must({ type: 'rechecked', saw: 'runs' }, { type: 'closed' });
  return driver.lines;
}

/** Any number of lines that hang together, without a walk behind them: for what only counts them. */
export function plainLines(id: string, count: number, { from = 0, before = '0'.repeat(64), text = '' } = {}): WalkLine[] {
  const lines: WalkLine[] = [];
  let last = before;
  for (let seq = from; seq < from + count; seq += 1) {
    const unsealed = {
      walk: id,
      seq,
      time: new Date(Date.UTC(2026, 0, 15, 9, 0, seq)).toISOString(),
      mono: seq * 1000,
      edition: EDITION_HASH,
      event: seq === 0 ? { type: 'opened' as const } : { type: 'noted' as const, text: `${text}${seq}` },
      before: last,
    };
    last = canonicalHash(unsealed);
    lines.push({ ...unsealed, hash: last });
  }
  return lines;
}

export const headOf = (lines: readonly WalkLine[]): string => lines.at(-1)?.hash ?? '0'.repeat(64);
