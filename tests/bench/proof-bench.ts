import { asFound, type Bench as BenchFile, factCorners, parseBench, prepare, solve, withFacts, withFault } from '../../engine/bench/index.ts';
import { proveTree } from '../../engine/proof/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import type { Step, Tree } from '../../engine/tree/index.ts';
import { buildEdition, compileEdition } from '../../engine/walk/index.ts';
import { type Bench, benchRow } from './bench-row.ts';

const say = (value: string) => [{ type: 'paragraph' as const, children: [{ type: 'text' as const, value }] }];
const common = (id: string) => ({ id, title: id, minutes: 1, while: [], cautions: [], prose: [], photos: [] });

/** A string of wires from a source to a coil, each of which can open; three facts, so 27 corners. */
function longBench(faults: number): BenchFile {
  const nodes = Array.from({ length: faults + 1 }, (_, i) => `T${i}`);
  const wires = Object.fromEntries(
    nodes.slice(1).map((to, i) => [`wire-${i}`, { kind: 'wire', between: [nodes[i], to], gauge: '18 AWG', length: 'run' }]),
  );
  const bench = parseBench({
    title: 'A long string',
    terminals: [...nodes, 'C'],
    settings: { power: ['on', 'off'] },
    facts: {
      volts: { quantity: 'ac-voltage', ask: 'Volts', usual: '24 V', from: '22 V', to: '27 V' },
      run: { quantity: 'length', ask: 'Run', usual: '2 ft', from: '1 ft', to: '4 ft' },
      burden: { quantity: 'resistance', ask: 'Load', usual: '600 ohm', from: '500 ohm', to: '700 ohm' },
    },
    parts: {
      supply: { kind: 'source', between: ['T0', 'C'], volts: 'volts', ohms: '1 ohm', when: 'power is on' },
      load: { kind: 'load', between: ['T0', 'C'], ohms: 'burden' },
      coil: { kind: 'coil', between: [`T${faults}`, 'C'], rated: '24 V', va: '10 VA', resistance: '30 ohm', 'pulls-in': '70 %' },
      ...wires,
    },
    signs: { pulled: 'coil is pulled-in' },
    faults: Object.fromEntries(Object.keys(wires).map((part) => [`${part}-open`, { part, becomes: 'open' }])),
  });
  if (!bench.ok) throw new Error(JSON.stringify(bench.problems[0]));
  return bench.bench;
}

/** Forty readings that halve the string again and again, a finding for each fault where readings are enough, and one Look first. */
function halvingTree(faults: number, readings: number): Tree {
  const steps: Step[] = [];
  const finding = (low: number, high: number): string => {
    const id = `open-${low}-${high}`;
    const named = Array.from({ length: high - low }, (_, i) => `wire-${low + i}-open`);
    if (!steps.some((s) => s.id === id)) steps.push({ kind: 'finding', ...common(id), faults: named, repair: say('Mend it.') });
    return id;
  };
  let left = readings;
  const split = (low: number, high: number): string => {
    if (high - low <= 1 || left <= 0) return finding(low, high);
    left -= 1;
    const middle = Math.floor((low + high) / 2);
    const id = `at-${low}-${high}`;
    const below = split(low, middle);
    const above = split(middle, high);
    steps.push({
      kind: 'reading',
      ...common(id),
      takes: 'ac-voltage',
      across: [`T${middle}`, 'C'],
      input: 'low',
      ways: [
        { on: 'below 10 V', to: { step: below } },
        { on: 'above 10 V', to: { step: above } },
      ],
    });
    return id;
  };
  const first = split(0, faults);
  const look: Step = {
    kind: 'look',
    ...common('look'),
    sign: 'pulled',
    ways: [
      { on: 'pulled', to: { step: 'sound' } },
      { on: 'not pulled', to: { step: first } },
    ],
  };
  const ends: Step[] = [
    { kind: 'finding', ...common('sound'), faults: [], repair: [] },
    { kind: 'handoff', ...common('help'), to: 'help' },
  ];
  return {
    name: 'halving',
    title: 'Halving',
    complaint: 'Nothing pulls in.',
    benches: ['long'],
    facts: {},
    settings: {},
    meter: '1 % + 3 counts',
    recheck: { step: 'look', passes: 'pulled' },
    handoff: 'help',
    opening: { cautions: [{ signal: 'notice', about: 'control-circuit', prose: say('24 V.') }], prose: [] },
    steps: [look, ...steps, ...ends],
  };
}

function timed(faults: number) {
  const bench = longBench(faults);
  const tree = halvingTree(faults, 39);
  const built = buildEdition('halving', { trees: { halving: tree }, benches: { long: bench }, figures: {} });
  if (!built.ok) throw new Error(JSON.stringify(built.problem));
  const edition = compileEdition(built.value, TRADE_FUNCTIONS);
  const corners = factCorners(bench);
  const start = performance.now();
  const proof = proveTree(edition);
  const ours = performance.now() - start;
  if (proof.misses.length > 0 || !proof.healthy) throw new Error(`The tree of the bench misses ${proof.misses[0]?.fault}.`);
  const prepared = prepare(bench);
  const base = asFound(bench);
  const began = performance.now();
  let cases = 0;
  for (const facts of corners) {
    for (const fault of Object.keys(bench.faults)) {
      if (!solve(prepared, withFacts(withFault(base, fault), facts)).ok) throw new Error('unsolved');
      cases += 1;
    }
  }
  return { ours, other: performance.now() - began, cases, corners: corners.length, steps: tree.steps.filter((s) => s.kind === 'reading').length + 1 };
}

const bench: Bench = async () => {
  timed(10);
  return [40, 80].map((faults) => {
    const { ours, other, cases, corners, steps } = timed(faults);
    return benchRow(
      `proof of ${steps} steps × ${faults} faults × ${corners} corners`,
      ours,
      other,
      `solving each of its ${cases} cases once, nothing read or walked`,
    );
  });
};

export default bench;
