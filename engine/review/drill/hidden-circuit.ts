import {
  fuseParts,
  isBlown,
  type MeterPlace,
  type MeterReading,
  type MeterRefusal,
  measure,
  type Solved,
  signsOf,
  withBlownFuses,
} from '../../bench/index.ts';
import type { Probe } from '../../suspects/index.ts';
import type { CircuitState } from '../../walk/index.ts';
import type { DrillGround } from './drill-ground.ts';

/**
 * The circuit with its hidden fault as the tech has it now; undefined where it has no rest. A fuse that has blown stays so: one that was blown as found,
 * and one (`blown`) that a move of the tech blew.
 */
export function hiddenCircuit(ground: DrillGround, circuit: CircuitState, blown: readonly string[] = []): Solved | undefined {
  const solved = ground.shows.solved(circuit, ground.hidden);
  if (!solved || blown.length === 0) return solved;
  const { index } = ground.prepared;
  const parts = fuseParts(ground.prepared).filter((part) => blown.includes(index.parts[part]?.name ?? '') && !isBlown(solved, part));
  if (parts.length === 0) return solved;
  const again = withBlownFuses(solved, parts);
  return again.ok ? again : undefined;
}

/** What a probe shows on a circuit: a reading, or whether a sign is seen. */
export type ProbeShown =
  | { readonly kind: 'reading'; readonly reading: MeterReading | MeterRefusal }
  | { readonly kind: 'look'; readonly seen: boolean }
  /** The circuit goes on switching, so nothing on it stands still. */
  | { readonly kind: 'unsteady' };

export function probeShown({ meter }: DrillGround, solved: Solved | undefined, probe: Probe): ProbeShown {
  if (!solved) return { kind: 'unsteady' };
  if (probe.kind === 'look') return { kind: 'look', seen: signsOf(solved)[probe.sign] ?? false };
  const place: MeterPlace = probe.across ? { across: probe.across } : { at: probe.at ?? '' };
  return { kind: 'reading', reading: measure(solved, probe.takes, place, { accuracy: meter, ...(probe.input && { input: probe.input }) }) };
}
