import type { CircuitState } from '../../walk/index.ts';
import type { Probe } from '../observe/probe.ts';

/** One thing that was found out on a call. */
export type Evidence = {
  readonly probe: Probe;
  /** How the circuit stood. */
  readonly circuit: CircuitState;
  /** SI; Infinity for OL; 1 for a sign seen, 0 for one not seen. */
  readonly found: number;
  /** Half the interval that the true value lies in, SI. */
  readonly halfWidth: number;
  /** What had been repaired before: faults that were no longer there. */
  readonly repaired: readonly string[];
  /** The step that it was found at, and what was typed or answered there. */
  readonly tree?: string;
  readonly step?: string;
  readonly typed?: string;
};
