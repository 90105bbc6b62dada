import { showQuantity } from '../../quantity/index.ts';
import type { Outcome } from '../isolate/outcome-bands.ts';
import type { Probe } from '../observe/probe.ts';

/** What one outcome of a candidate would leave. */
export type Leaves = { readonly faults: readonly string[]; readonly probability: number };

const named = (fault: string): string => fault.replaceAll('-', ' ') || 'nothing wrong';

/**
 * Why a reading is worth taking, in one line that a tech can check against the suspects: what it tells from what, and how many are left. Outcomes by
 * likelihood, faults of each likeliest first.
 */
export function reasonWords(leaves: readonly Leaves[]): string {
  const [first, second, ...more] = [...leaves].sort((a, b) => b.probability - a.probability);
  if (!first || !second) return 'tells nothing new';
  const [a = '', b = ''] = [first.faults[0], second.faults[0]].map((fault) => named(fault ?? ''));
  const counts = [first, second, ...more].map(({ faults }) => faults.length);
  const all = counts.reduce((sum, count) => sum + count, 0);
  if (counts.every((count) => count === 1))
    return counts.length === 2 ? `tells ${a} from ${b}` : `tells ${a}, ${b} and ${counts.length - 2} more apart`;
  const alone = [first, second, ...more].find(({ faults }) => faults.length === 1);
  if (counts.length === 2 && alone) return `settles ${named(alone.faults[0] ?? '')}, or leaves ${all - 1}`;
  if (counts.length === 2)
    return counts[0] === counts[1] ? `splits ${a} and ${b}: ${counts[0]} left either way` : `splits ${a} and ${b}: ${counts[0]} or ${counts[1]} left`;
  return `splits ${a}, ${b} and others: ${Math.max(...counts)} left at most`;
}

/** What a probe would show, for people: `24.1 V`, `23 V to 29 V`, `OL`, `yes`. */
export function outcomeWords(probe: Probe, { low, high, open }: Outcome): string {
  if (probe.kind === 'look') return low === 1 ? 'yes' : 'no';
  if (open) return 'OL';
  const show = (si: number): string => showQuantity(Math.abs(si) < 1e-9 ? 0 : si, probe.takes, undefined, 2);
  const from = show(low);
  const to = show(high);
  return from === to ? to : `${from} to ${to}`;
}
