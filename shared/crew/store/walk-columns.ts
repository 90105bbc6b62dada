import type { WalkFlag, WalkSummary } from '../../sync/wire/walk-wire.ts';
import type { WalkRow } from './hub-tables.ts';

/** What a row shows to be odd about its walk. */
export function flagsOf(row: Pick<WalkRow, 'tree' | 'forks' | 'top' | 'length' | 'told_length' | 'shrunk' | 'hands' | 'replay_problem'>): WalkFlag[] {
  const flags: WalkFlag[] = [];
  if (row.tree === null) flags.push('unknown-edition');
  if (row.forks > 0) flags.push('forked');
  if (row.top >= row.length && row.forks === 0) flags.push('gap');
  if (row.told_length > row.length) flags.push('cut-off');
  if (row.shrunk !== 0) flags.push('shrunk');
  if (row.hands > 1) flags.push('several-hands');
  if (row.replay_problem !== null) flags.push('does-not-replay');
  return flags;
}

export type WalkRead = Omit<WalkRow, 'told_head' | 'touched' | 'minutes_bin' | 'finding_tree' | 'finding_step'> & {
  readonly person_name: string;
  readonly title: string | null;
};

export function summaryOf(row: WalkRead): WalkSummary {
  return {
    walk: row.id,
    edition: row.edition,
    person: row.person,
    personName: row.person_name,
    drill: row.drill !== 0,
    last: row.last_at,
    arrived: row.arrived,
    length: row.length,
    lines: row.lines,
    told: row.told_length,
    closed: row.closed !== 0,
    flags: flagsOf(row),
    ...(row.tree !== null && { tree: row.tree }),
    ...(row.title !== null && { title: row.title }),
    ...(row.by_name !== null && { by: row.by_name }),
    ...(row.site !== null && { site: row.site }),
    ...(row.opened !== '' && { opened: row.opened }),
    ...(row.phase !== null && { phase: row.phase }),
    ...(row.finding !== null && { finding: row.finding }),
    ...(row.outcome !== null && { outcome: row.outcome }),
    ...(row.minutes !== null && { minutes: row.minutes }),
    ...(row.held !== null && {
      confirmation: {
        held: row.held !== 0,
        ...(row.held_bench !== null && { bench: row.held_bench }),
        ...(row.held_fault !== null && { fault: row.held_fault }),
      },
    }),
  };
}
