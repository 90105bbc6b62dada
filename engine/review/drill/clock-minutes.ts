import { minutesBetween } from '../../walk/index.ts';
import type { DrillRecord } from './drill-record.ts';

/** Minutes that a drill took by the clock, from its beginning to its last move. A time away from it counts, as nothing tells it from thinking. */
export const clockMinutes = ({ begun, lines }: Pick<DrillRecord, 'begun' | 'lines'>): number =>
  lines.reduce((sum, line, at) => sum + minutesBetween(lines[at - 1] ?? begun, line), 0);
