import type { PreparedBench } from '../../bench/index.ts';
import { NEEDS_DEAD_CIRCUIT, type QuantityKindName } from '../../quantity/index.ts';
import type { Action } from '../../tree/index.ts';
import type { Probe } from '../observe/probe.ts';
import { CommonPoints } from './common-points.ts';

/** What things take on a call, minutes. */
export type MinutesModel = {
  readonly probe: (probe: Probe) => number;
  readonly action: (action: Action) => number;
  /** One reading that proves two points dead. */
  readonly dead: number;
};

/**
 * The usual minutes, all of them. Common practice, no time study: a reading or look takes one, with the panel open and the meter in hand; what has
 * to be fetched, walked to or opened takes more. A tree that knows the house better says so in its own `minutes`.
 */
export const USUAL_MINUTES = {
  look: 1,
  reading: 1,
  /** Two points that no part joins and neither of which is a common: the second lead has to be clipped on elsewhere. */
  apart: 1.5,
  /** Amps: a clamp around one conductor, or the meter in series with a lifted lead. */
  clamp: 3,
  series: 5,
  /** Pressure and the like: an instrument has to be connected. */
  instrument: 4,
  dead: 0.5,
  'prove-meter': 0.5,
  turn: 1,
  jumper: 1,
  'remove-jumper': 0.5,
  lift: 0.5,
  land: 0.5,
} as const;

const VOLTS: ReadonlySet<QuantityKindName> = new Set(['ac-voltage', 'dc-voltage', 'frequency']);

/** The usual minutes on a bench. */
export function usualMinutes(prepared: PreparedBench): MinutesModel {
  const points = new CommonPoints(prepared);
  return {
    probe: (probe) => {
      if (probe.kind === 'look') return USUAL_MINUTES.look;
      const { takes, across } = probe;
      if (across && (VOLTS.has(takes) || NEEDS_DEAD_CIRCUIT.has(takes))) {
        // A lifted lead is in the hand already.
        const lead = across.some((point) => !points.terminals.includes(point));
        return !lead && points.kind(...across) === 'apart' ? USUAL_MINUTES.apart : USUAL_MINUTES.reading;
      }
      if (takes === 'ac-current') return USUAL_MINUTES.clamp;
      return takes === 'dc-current' ? USUAL_MINUTES.series : USUAL_MINUTES.instrument;
    },
    action: (action) => USUAL_MINUTES[action.do],
    dead: USUAL_MINUTES.dead,
  };
}
