import { asFound, measure, prepare, solve, withFault } from '../../engine/bench/index.ts';
import { beginDrill, type DrillMove, takeMove } from '../../engine/review/index.ts';
import { groundOn } from '../drill/drill-grounds.ts';
import { type Bench, type BenchRow, benchRow } from './bench-row.ts';
import { medianTimes } from './median-times.ts';

const TREE = 'no-water-at-the-pad';
const BENCH = 'own-transformer';
const FAULT = 'coil-open';
const READ: DrillMove = { do: 'measure', takes: 'ac-voltage', across: ['V1', 'V2'], input: 'low' };
const AT = { time: '2026-01-15T09:00:00.000Z', mono: 0 };

/** A press on Read in a drill, checked and kept, beside solving the circuit and reading it without a drill. */
function readRow(): BenchRow {
  const ground = groundOn(TREE, BENCH, { fault: FAULT });
  const run = beginDrill(ground, 'run-1', AT);
  const prepared = prepare(ground.bench);
  const situation = withFault(asFound(ground.bench), FAULT);
  const plain = () => {
    const solved = solve(prepared, situation);
    return solved.ok ? measure(solved, 'ac-voltage', { across: ['V1', 'V2'] }, { input: 'low' }) : undefined;
  };
  const { ours, other } = medianTimes(() => takeMove(run, READ, AT), plain, { turns: 200 });
  return benchRow('drill: a reading', ours, other, 'other: the circuit solved and read without a drill');
}

/** The same after a change of the circuit that was not met before: what the first press on it waits for. */
function changedRow(): BenchRow {
  const ground = groundOn(TREE, BENCH, { fault: FAULT });
  const prepared = prepare(ground.bench);
  // Each house is a circuit that nothing is kept of.
  let volts = 108;
  const next = (): number => {
    volts += 0.01;
    return volts;
  };
  const drilled = () => {
    const fresh = groundOn(TREE, BENCH, { fault: FAULT, facts: { 'line-volts': `${next()} V` } });
    return takeMove(beginDrill(fresh, 'run-1', AT), READ, AT);
  };
  const plain = () => {
    const solved = solve(prepared, { ...withFault(asFound(ground.bench), FAULT), facts: { ...asFound(ground.bench).facts, 'line-volts': next() } });
    return solved.ok ? measure(solved, 'ac-voltage', { across: ['V1', 'V2'] }, { input: 'low' }) : undefined;
  };
  const { ours, other } = medianTimes(drilled, plain, { turns: 60 });
  return benchRow('drill: begun in a new house, and a reading', ours, other, 'other: the circuit solved and read without a drill');
}

const drillBench: Bench = async () => [readRow(), changedRow()];
export default drillBench;
