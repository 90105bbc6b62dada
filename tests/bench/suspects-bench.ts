import { readFileSync } from 'node:fs';
import { asFound, type Bench as BenchFile, measure, parseBench, prepare, readBench, solve, withFault } from '../../engine/bench/index.ts';
import { proveTree } from '../../engine/proof/index.ts';
import {
  BenchShows,
  diagnosisOf,
  draftTree,
  type NextReadings,
  nextReadings,
  sequenceTests,
  type TestMatrix,
  usualMinutes,
  type WalkCandidate,
} from '../../engine/suspects/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { buildEdition, compileEdition, SafetyModel, untouched } from '../../engine/walk/index.ts';
import { dice, randomMatrix } from '../suspects/random-matrix.ts';
import { type Bench, type BenchRow, benchRow } from './bench-row.ts';
import { medianTimes } from './median-times.ts';

/** A string of wires from a source to a coil, each of which can open, some more often than others. */
function longString(faults: number): BenchFile {
  const nodes = Array.from({ length: faults + 1 }, (_, i) => `T${i}`);
  const wires = Object.fromEntries(
    nodes.slice(1).map((to, i) => [`wire-${i}`, { kind: 'wire', between: [nodes[i], to], gauge: '18 AWG', length: '2 ft' }]),
  );
  const bench = parseBench({
    title: 'A long string',
    terminals: [...nodes, 'C'],
    settings: { power: ['on', 'off'] },
    parts: {
      supply: { kind: 'source', between: ['T0', 'C'], volts: '24 V', ohms: '1 ohm', when: 'power is on' },
      coil: { kind: 'coil', between: [`T${faults}`, 'C'], rated: '24 V', va: '10 VA', resistance: '30 ohm', 'pulls-in': '70 %' },
      ...wires,
    },
    signs: { pulled: 'coil is pulled-in' },
    faults: Object.fromEntries(Object.keys(wires).map((part, i) => [`${part}-open`, { part, becomes: 'open', weight: 1 + ((i * 7) % 10) }])),
  });
  if (!bench.ok) throw new Error(JSON.stringify(bench.problems[0]));
  return bench.bench;
}

/** Sixty readings on it: every point to common, and some pairs of points. */
function readingsOn(bench: BenchFile, count: number): readonly (readonly [string, string])[] {
  const points = bench.terminals.filter((point) => point !== 'C');
  const toCommon = points.map((point) => [point, 'C'] as const);
  const pairs = points.slice(0, 25).map((point, i) => [point, points[i + 5 + ((i * 3) % 11)] ?? 'C'] as const);
  return [...toCommon, ...pairs].slice(0, count);
}

function nextRows(): readonly BenchRow[] {
  const bench = longString(40);
  const across = readingsOn(bench, 60);
  const circuit = untouched(asFound(bench).settings);
  const stance = { settings: circuit.settings, jumpers: [], lifted: [] };
  const standing = (shows: BenchShows) => {
    const minutes = usualMinutes(shows.prepared);
    const candidates = across.map((points): WalkCandidate => {
      const probe = { kind: 'reading', takes: 'ac-voltage', across: points, input: 'low' } as const;
      return { probe, stance, minutes: minutes.probe(probe), reached: undefined };
    });
    return { from: { circuit, at: undefined, asFound: circuit.settings, safety: [new SafetyModel(bench)] }, candidates, minutes };
  };
  const look = { probe: { kind: 'look', sign: 'pulled' }, circuit, found: 0, halfWidth: 0, repaired: [] } as const;
  const next = (shows: BenchShows): NextReadings => nextReadings(diagnosisOf(new Map([['bench', shows]]), [look]), standing(shows));

  // The same outcomes in plain arrays: each reading, then the order that takes most bits a minute to the end.
  const prepared = prepare(bench);
  const weights = Object.values(bench.faults).map(({ weight }) => weight);
  const table = (): number[][] =>
    across.map(([red, black]) =>
      Object.keys(bench.faults).map((fault) => {
        const solved = solve(prepared, withFault(asFound(bench), fault));
        const shown = solved.ok ? measure(solved, 'ac-voltage', { across: [red, black] }, { input: 'low' }) : undefined;
        return shown?.ok && shown.value !== 'open' ? Math.round(shown.value / 3) : -1;
      }),
    );
  const known = table();
  const partsOf = (set: readonly number[], row: readonly number[]): readonly (readonly number[])[] => {
    const parts = new Map<number, number[]>();
    for (const state of set) parts.set(row[state] ?? 0, [...(parts.get(row[state] ?? 0) ?? []), state]);
    return [...parts.values()];
  };
  const heft = (set: readonly number[]): number => set.reduce((sum, state) => sum + (weights[state] ?? 0), 0);
  const bitsIn = (set: readonly number[]): number =>
    set.reduce((bits, state) => bits - (weights[state] ?? 0) * Math.log2((weights[state] ?? 0) / heft(set)), 0);
  const greedy = (set: readonly number[]): number => {
    if (set.length < 2) return 0;
    let best: readonly (readonly number[])[] = [];
    let least = Number.POSITIVE_INFINITY;
    for (const row of known) {
      const parts = partsOf(set, row);
      const left = parts.length < 2 ? Number.POSITIVE_INFINITY : parts.reduce((sum, part) => sum + bitsIn(part), 0);
      if (left < least) [best, least] = [parts, left];
    }
    return best.reduce((sum, part) => sum + greedy(part), heft(set));
  };
  const everything = weights.map((_, state) => state);
  const lookAhead = (): number =>
    Math.min(...known.map((row) => partsOf(everything, row).reduce((sum, part) => sum + greedy(part), heft(everything))));
  const kept = new BenchShows(bench);
  const again = medianTimes(() => next(kept), lookAhead, { turns: 21 });
  const first = medianTimes(() => next(new BenchShows(bench)), table, { turns: 7, warmUp: 2 });
  const { method, readings, states } = next(kept);
  if (method !== 'exact' || states.length !== 40 || readings.length === 0) throw new Error('no next reading');
  return [
    benchRow(
      `next reading, ${states.length} faults × ${across.length} readings (${method})`,
      again.ours,
      again.other,
      'rollout of each reading on plain arrays, its outcomes known and each a minute',
    ),
    benchRow('the same, the first time on a circuit', first.ours, first.other, 'solving and reading every fault for every reading, nothing ranked'),
  ];
}

/** Least expected minutes by plain dynamic programming over the sets that it meets: memory, and no bound. Up to 31 states. */
function plainOptimum({ priors, costs, outcomes }: TestMatrix): { readonly minutes: number; readonly sets: number } {
  const kept = new Map<number, number>();
  const least = (set: number): number => {
    if ((set & (set - 1)) === 0) return 0;
    const known = kept.get(set);
    if (known !== undefined) return known;
    let best = Number.POSITIVE_INFINITY;
    for (const [test, row] of outcomes.entries()) {
      const parts: number[] = [];
      let weight = 0;
      for (let state = 0; state < priors.length; state += 1) {
        if (((set >> state) & 1) === 0) continue;
        weight += priors[state] ?? 0;
        const outcome = row[state] ?? 0;
        parts[outcome] = (parts[outcome] ?? 0) | (1 << state);
      }
      const met = parts.filter((part) => part > 0);
      if (met.length < 2) continue;
      best = Math.min(
        best,
        met.reduce((sum, part) => sum + least(part), (costs[test] ?? 0) * weight),
      );
    }
    const minutes = Number.isFinite(best) ? best : 0;
    kept.set(set, minutes);
    return minutes;
  };
  const minutes = least(2 ** priors.length - 1);
  return { minutes, sets: kept.size };
}

function searchRows(): readonly BenchRow[] {
  return [15, 20, 30].map((states) => {
    const matrix = randomMatrix(dice(states), { states, tests: states, outcomes: 2, mostMinutes: 10 });
    const ours = sequenceTests(matrix);
    const plain = plainOptimum(matrix);
    if (ours.method !== 'exact' || Math.abs(ours.optimum - plain.minutes) > 1e-9) throw new Error(`${ours.optimum} is not ${plain.minutes}`);
    const times = medianTimes(
      () => sequenceTests(matrix),
      () => plainOptimum(matrix),
      { turns: 3, warmUp: 0 },
    );
    return benchRow(
      `exact order of ${states} faults × ${states} tests: ${ours.visited} sets`,
      times.ours,
      times.other,
      `plain dynamic programming over the ${plain.sets} sets that it meets`,
    );
  });
}

function draftRow(name: string): BenchRow {
  const { bench } = readBench(readFileSync(new URL(`../../trees/benches/${name}.bench.yaml`, import.meta.url), 'utf8'), { file: name });
  if (!bench) throw new Error(name);
  const draft = () => draftTree(bench, { name: 'draft', bench: name });
  const drafted = draft();
  if (!drafted.ok) throw new Error(drafted.problem.code);
  const { tree, isolation } = drafted.value;
  const built = buildEdition('draft', { trees: { draft: tree }, benches: { [name]: bench }, figures: {} });
  if (!built.ok) throw new Error(JSON.stringify(built.problem));
  const edition = built.value;
  const times = medianTimes(draft, () => proveTree(compileEdition(edition, TRADE_FUNCTIONS)), { turns: 5, warmUp: 1 });
  return benchRow(
    `draft from ${name}: ${Object.keys(bench.faults).length} faults, ${isolation.visited} sets (${isolation.method})`,
    times.ours,
    times.other,
    `proving the ${tree.steps.length} steps that it gives`,
  );
}

const bench: Bench = async () => [...nextRows(), ...searchRows(), draftRow('own-transformer')];

export default bench;
