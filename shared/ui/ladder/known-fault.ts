import type { Bench } from '../../../engine/bench/index.ts';
import type { KnownFault } from './ladder-state.ts';
import { partValue } from './part-words.ts';

const BREAKS: ReadonlySet<string> = new Set(['open', 'absent', 'blown', 'stuck-open', 'primary-open', 'secondary-open']);

/** A fault of a bench as the drawing marks it; undefined where the bench has none of that name. */
export function knownFault(bench: Bench, name: string): KnownFault | undefined {
  const fault = Object.hasOwn(bench.faults, name) ? bench.faults[name] : undefined;
  if (!fault) return undefined;
  const becomes = fault.becomes.trim();
  return { part: fault.part, word: faultWord(becomes), breaks: BREAKS.has(becomes) };
}

function faultWord(becomes: string): string {
  if (becomes === 'absent') return 'missing';
  if (becomes.startsWith('to ')) return `shorted ${becomes}`;
  return partValue(becomes).replace(/([a-z])-(?=[a-z])/g, '$1 ');
}
