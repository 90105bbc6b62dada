import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { LuDecomposition, Matrix } from 'ml-matrix';
import { asFound, prepare, type Situation, type Solved, solve, withFacts, withFault } from '../../engine/bench/index.ts';
import { emptyField, solveField } from '../../engine/bench/network.ts';
import { shippedBenches, soundBench } from '../circuits/bench-files.ts';
import { writeNetlist } from '../circuits/netlist.ts';
import { NGSPICE } from '../circuits/ngspice.ts';
import { type Bench, type BenchRow, benchRow } from './bench-row.ts';
import { medianTimes } from './median-times.ts';

const NAME = 'own-transformer';

/** Milliseconds that a run of ngspice takes with this control script on these netlists, `0.cir` and on; the first is read at the start. */
function simulatorTime(netlists: readonly (readonly string[])[], control: readonly string[]): number {
  const folder = mkdtempSync(join(tmpdir(), 'solver-bench-'));
  try {
    for (const [i, lines] of netlists.entries()) writeFileSync(join(folder, `${i}.cir`), ['* circuit', ...lines, '.end', ''].join('\n'));
    writeFileSync(
      join(folder, 'run.sp'),
      [
        '* control',
        '.control',
        'set noaskquit',
        `source ${join(folder, '0.cir')}`,
        ...control.map((line) => line.replace('FOLDER', folder)),
        'quit',
        '.endc',
        '.end',
        '',
      ].join('\n'),
    );
    const start = performance.now();
    execFileSync(NGSPICE, ['-b', join(folder, 'run.sp')], { stdio: 'ignore' });
    return performance.now() - start;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Milliseconds a point, its own start taken off: the time of many points less the time of few. */
function simulatorPoint(netlists: readonly (readonly string[])[], control: (points: number) => readonly string[], points: number): number {
  const turns = Array.from({ length: 5 }, () => simulatorTime(netlists, control(points)) - simulatorTime(netlists, control(1)));
  return median(turns) / (points - 1);
}

/** The nodal equations of a solved circuit as the real matrix of twice the size that a general library can factor. */
function realMatrix({ circuit, states, ac }: Solved): { readonly matrix: Matrix; readonly right: Matrix } {
  const n = circuit.size;
  const matrix = Matrix.zeros(2 * n, 2 * n);
  const right = Matrix.zeros(2 * n, 1);
  const add = (row: number, column: number, re: number, im: number): void => {
    if (row < 0 || column < 0) return;
    matrix.set(row, column, matrix.get(row, column) + re);
    matrix.set(row, column + n, matrix.get(row, column + n) - im);
    matrix.set(row + n, column, matrix.get(row + n, column) + im);
    matrix.set(row + n, column + n, matrix.get(row + n, column + n) + re);
  };
  for (const { a, b, part, on, off, switched, driveRe, driveIm } of circuit.branches) {
    const closed = !switched || states[part] !== 0;
    const { re, im } = closed ? on : off;
    add(a, a, re, im);
    add(b, b, re, im);
    add(a, b, -re, -im);
    add(b, a, -re, -im);
    if (!closed || a < 0) continue;
    right.set(a, 0, right.get(a, 0) + driveRe);
    right.set(a + n, 0, right.get(a + n, 0) + driveIm);
  }
  for (const { ends, ratio, conductance } of circuit.transformers) {
    const weights = [ratio, -ratio, -1, 1];
    for (const [i, row] of ends.entries()) {
      for (const [k, column] of ends.entries()) add(row, column, conductance * (weights[i] ?? 0) * (weights[k] ?? 0), 0);
    }
  }
  for (let node = 0; node < n; node += 1) if (ac.island[node] === node && node !== ac.island[n]) add(node, node, 1, 0);
  return { matrix, right };
}

/** The solver beside ngspice on the same circuit, and beside a general library's LU on the same equations. */
const bench: Bench = async () => {
  const file = shippedBenches().find(({ name }) => name === NAME);
  if (!file) throw new Error(`No bench ${NAME}.`);
  const model = soundBench(file);
  const prepared = prepare(model);
  const situation = asFound(model);
  const solution = solve(prepared, situation);
  if (!solution.ok) throw new Error(`${NAME} does not settle: ${solution.reason}`);
  const { circuit, states } = solution;
  const hertz = prepared.omega / (2 * Math.PI);
  const { lines } = writeNetlist(model, situation, solution, 'ac');
  const rows: BenchRow[] = [];
  const nodes = `${NAME}, ${circuit.size} nodes`;

  // The same circuit again and again: what a sweep costs a point, with nothing printed or kept but the node volts.
  const field = emptyField(circuit.size);
  const SOLVES = 2000;
  const { matrix, right } = realMatrix(solution);
  const library = medianTimes(
    () => {
      for (let i = 0; i < SOLVES / 20; i += 1) solveField(circuit, states, 'ac', 'sparse', field);
      return field;
    },
    () => {
      let last: Matrix | undefined;
      for (let i = 0; i < SOLVES / 20; i += 1) last = new LuDecomposition(matrix).solve(right);
      return last;
    },
    { turns: 31 },
  );
  const ours = library.ours / (SOLVES / 20);
  rows.push(
    benchRow(`one solution, assembled and solved (${nodes})`, ours, library.other / (SOLVES / 20), 'ml-matrix LU of the assembled real matrix'),
  );

  const dense = medianTimes(
    () => {
      for (let i = 0; i < SOLVES / 20; i += 1) solveField(circuit, states, 'ac', 'dense', field);
      return field;
    },
    () => {
      let last: Matrix | undefined;
      for (let i = 0; i < SOLVES / 20; i += 1) last = new LuDecomposition(matrix).solve(right);
      return last;
    },
    { turns: 31 },
  );
  rows.push(
    benchRow('the same by the dense solver with pivoting', dense.ours / (SOLVES / 20), dense.other / (SOLVES / 20), 'ml-matrix LU, as above'),
  );

  const sweep = simulatorPoint([lines], (points) => [`ac lin ${points} ${hertz} ${hertz * 1.001}`], 20_001);
  rows.push(benchRow('one solution', ours, sweep, 'ngspice, a point of one AC sweep of the same netlist, its start taken off'));

  // A point of the proof: another value, so the circuit is built, settled and read anew. ngspice is given the value and asked for one frequency.
  const [fact = ''] = Object.keys(model.facts);
  const source = lines.find((line) => line.startsWith('V'))?.split(' ')[0] ?? '';
  const values = Array.from({ length: 200 }, (_, i) => (situation.facts[fact] ?? 0) * (1 + (i % 20) / 400));
  const changed: readonly Situation[] = values.map((value) => withFacts(situation, { [fact]: value }));
  const settled = medianTimes(
    () => {
      let rounds = 0;
      for (const each of changed) {
        const solved = solve(prepared, each);
        rounds += solved.ok ? solved.rounds : 0;
      }
      return rounds;
    },
    () => 0,
    { turns: 31 },
  );
  const altered = simulatorPoint(
    [lines],
    (points) =>
      values
        .concat(values)
        .slice(0, points)
        .flatMap((value) => [`alter ${source} acmag = ${value}`, `ac lin 1 ${hertz} ${hertz}`, 'destroy all']),
    400,
  );
  rows.push(
    benchRow(
      'another fact: built, contacts settled, solved',
      settled.ours / values.length,
      altered,
      'ngspice told the value in one running process; it settles no contacts',
    ),
  );

  // A fault, a contact or a lead changes what is joined, which a simulator can only be told by another netlist.
  const faulty = Object.keys(model.faults).flatMap((fault) => {
    const edited = withFault(situation, fault);
    const solved = solve(prepared, edited);
    return solved.ok ? [{ edited, lines: writeNetlist(model, edited, solved, 'ac').lines }] : [];
  });
  const broken = medianTimes(
    () => faulty.map(({ edited }) => solve(prepared, edited)),
    () => 0,
    { turns: 31 },
  );
  const sourced = simulatorPoint(
    faulty.map((each) => each.lines),
    (points) =>
      Array.from({ length: points }, (_, i) => [
        `source FOLDER/${i % faulty.length}.cir`,
        `ac lin 1 ${hertz} ${hertz}`,
        'destroy all',
        'remcirc',
      ]).flat(),
    4 * faulty.length,
  );
  rows.push(
    benchRow(
      'another fault: built, contacts settled, solved',
      broken.ours / faulty.length,
      sourced,
      'ngspice given the netlist in one running process',
    ),
  );
  const started = median(Array.from({ length: 9 }, () => simulatorTime([lines], [`ac lin 1 ${hertz} ${hertz}`])));
  rows.push(benchRow('another fault: built, contacts settled, solved', broken.ours / faulty.length, started, 'ngspice started for one netlist'));
  return rows;
};

export default bench;
