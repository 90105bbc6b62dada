import { evidenceOf, probeKey } from '../../suspects/index.ts';
import { circuitKey } from '../../walk/index.ts';
import type { ReplayedLine } from '../replayed-log.ts';

/** Equal for walks that stood at the same step before a line, on the same circuit, and had found out the same: what could be told of one can be told of the other. */
export function standingKey({ before, trailBefore }: ReplayedLine): string {
  const { at, facts, circuit, excluded } = before.snapshot.context;
  const evidence = evidenceOf(before, trailBefore).map(({ probe, circuit: then, found, halfWidth, repaired }) =>
    [probeKey(probe), circuitKey(then), found, halfWidth, ...repaired].join(' '),
  );
  return [at ?? '', circuitKey(circuit), excluded.join(), JSON.stringify(facts), ...evidence].join('\n');
}
