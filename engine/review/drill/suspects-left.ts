import { outcomesOf, type Probe } from '../../suspects/index.ts';
import type { CircuitState } from '../../walk/index.ts';
import type { DrillGround } from './drill-ground.ts';
import type { DrillAnswer } from './drill-path.ts';

/** Everything that could be the answer before anything is known. */
export const allAnswers = ({ bench }: DrillGround): readonly DrillAnswer[] => [undefined, ...Object.keys(bench.faults)];

/**
 * What can still be the answer after a probe on the circuit as it stands: the answers that show, within the meter's accuracy and some room for the model, what the
 * hidden one shows. A probe that shows the same for all of them leaves them all.
 */
export function leftAfter(ground: DrillGround, left: readonly DrillAnswer[], probe: Probe, circuit: CircuitState): readonly DrillAnswer[] {
  const row = (answer: DrillAnswer): Float64Array => ground.shows.shows(probe, circuit, answer === undefined ? [] : [answer]);
  // What the bench cannot tell of an answer does not rule it out.
  const told = left.filter((answer) => !row(answer).some(Number.isNaN));
  const hidden = told.indexOf(ground.task.fault);
  if (hidden < 0) return left;
  const outcomes = outcomesOf(probe, told.map(row), ground.meter);
  if (!outcomes) return left;
  const shown = outcomes.of[hidden]?.[0];
  return left.filter((answer) => {
    const at = told.indexOf(answer);
    return at < 0 || outcomes.of[at]?.[0] === shown;
  });
}
