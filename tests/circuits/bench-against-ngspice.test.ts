import { describe, expect, test } from 'vitest';
import {
  asFound,
  type Bench,
  FAULT_MODES,
  MOST_OHMS,
  measure,
  nodeDcVolts,
  nodeVolts,
  PART_KIND_NAMES,
  prepare,
  type Situation,
  type Solved,
  solve,
  withFault,
  withJumper,
  withLifted,
  withSetting,
} from '../../engine/bench/index.ts';
import { sampleBenches, shippedBenches, soundBench } from './bench-files.ts';
import { type Netlist, writeNetlist } from './netlist.ts';
import { type SimulatedVolts, simulate } from './ngspice.ts';

// Every node voltage within 0.1 % of an outside simulator; below a tenth of a millivolt, finer than any meter here counts, both are rounding.
const SHARE = 1e-3;
const FLOOR = 1e-4;

type Case = { readonly name: string; readonly situation: Situation };

/** As found, under every fault, with every setting turned, every lead lifted and the first terminals jumpered. */
function casesOf(bench: Bench): readonly Case[] {
  const start = asFound(bench);
  const off = Object.entries(bench.settings).flatMap(([name, states]) =>
    states.slice(1).map((state) => ({ name: `${name} ${state}`, situation: withSetting(start, name, state) })),
  );
  const faults = Object.keys(bench.faults).map((fault) => ({ name: fault, situation: withFault(start, fault) }));
  const turnedFaults = off.flatMap((turned) =>
    Object.keys(bench.faults).map((fault) => ({ name: `${turned.name}, ${fault}`, situation: withFault(turned.situation, fault) })),
  );
  const leads = Object.values(bench.parts).flatMap((part) => ('lead' in part && part.lead !== undefined ? [part.lead].flat() : []));
  const lifted = leads.map((lead) => ({ name: `lift ${lead}`, situation: withLifted(start, lead.split(' on ')[0] ?? '') }));
  const [a = '', b = '', c = ''] = bench.terminals.slice(-3);
  const jumpered = [
    { name: `jumper ${a} ${b}`, situation: withJumper(start, a, b) },
    { name: `jumper ${a} ${c}`, situation: withJumper(start, a, c) },
  ];
  return [{ name: 'as found', situation: start }, ...off, ...faults, ...turnedFaults, ...lifted, ...jumpered];
}

/** Where ours and theirs differ, node by node against the island's tie, as text. */
function differences(
  ours: Solved,
  volts: Readonly<Record<string, { readonly re: number; readonly im: number }>>,
  theirs: SimulatedVolts,
  { nodes, ties }: Netlist,
): readonly string[] {
  const at = (name: string) => (name === 'ground' ? { re: 0, im: 0 } : (volts[name] ?? { re: Number.NaN, im: Number.NaN }));
  return ours.circuit.prepared.index.nodes.flatMap((name) => {
    const node = nodes.get(name);
    const mine = at(name);
    // A loose end that nothing stands on is at ground by its leak alone.
    if (node === undefined) return Math.hypot(mine.re, mine.im) === 0 ? [] : [`${name}: nothing there, ours ${mine.re}+${mine.im}j`];
    const tie = ties.get(name) ?? 'ground';
    const [their, base] = [theirs.get(node), tie === 'ground' ? { re: 0, im: 0 } : theirs.get(nodes.get(tie) ?? '')];
    if (!their || !base) return [`${name}: not in the simulator's answer`];
    // Islands tied inside the simulator's own parts (behind a source) have no node of ours: compared against the first that both have.
    const datum = volts[tie] || tie === 'ground' ? { mine: at(tie), their: base } : firstOfIsland(name);
    const [dr, di] = [mine.re - datum.mine.re, mine.im - datum.mine.im];
    const [er, ei] = [their.re - datum.their.re, their.im - datum.their.im];
    const off = Math.hypot(dr - er, di - ei);
    return off <= SHARE * Math.hypot(er, ei) + FLOOR ? [] : [`${name}: ours ${dr}+${di}j, theirs ${er}+${ei}j`];

    function firstOfIsland(of: string) {
      const first = ours.circuit.prepared.index.nodes.find((other) => ties.get(other) === ties.get(of)) ?? of;
      return { mine: at(first), their: theirs.get(nodes.get(first) ?? '') ?? { re: Number.NaN, im: Number.NaN } };
    }
  });
}

describe.each([...sampleBenches(), ...shippedBenches()])('$name', (file) => {
  const bench = soundBench(file);
  const prepared = prepare(bench);
  const hertz = prepared.omega / (2 * Math.PI);
  const solved = casesOf(bench).map((each) => ({ ...each, solution: solve(prepared, each.situation) }));

  test('every situation settles', () => {
    // A jumper from line voltage to a control circuit may well make relays chatter; nothing else may.
    expect(
      solved.flatMap(({ name, solution }) => (solution.ok || name.startsWith('jumper') ? [] : [`${name}: ${JSON.stringify(solution)}`])),
    ).toEqual([]);
  });

  test.each(['ac', 'dc'] as const)('every node voltage agrees with ngspice (%s): healthy, turned, lifted, jumpered and under every fault', (line) => {
    const jobs = solved.flatMap(({ name, situation, solution }) =>
      solution.ok ? [{ name, solution, netlist: writeNetlist(bench, situation, solution, line) }] : [],
    );
    const answers = simulate(jobs.map(({ netlist }) => ({ lines: netlist.lines, hertz: line === 'dc' ? 'dc' : hertz })));
    const wrong = jobs.flatMap(({ name, solution, netlist }, i) => {
      const dc = Object.entries(nodeDcVolts(solution)).map(([node, re]) => [node, { re, im: 0 }]);
      const volts = line === 'ac' ? nodeVolts(solution) : Object.fromEntries(dc);
      return differences(solution, volts, answers[i] ?? new Map(), netlist).map((text) => `${name}: ${text}`);
    });
    expect(wrong).toEqual([]);
    expect(jobs.length).toBeGreaterThan(1);
  });

  test('ohms between the terminals of a dead circuit agree with ngspice, healthy and under every fault', () => {
    const off = Object.entries(bench.settings).find(([name, states]) => /power/.test(name) && states.includes('off'));
    if (!off) throw new Error('the bench has no power to turn off');
    const dead = withSetting(asFound(bench), off[0], 'off');
    const pairs = bench.terminals.slice(1).map((terminal, i) => [terminal, bench.terminals[i] ?? ''] as const);
    const jobs = [dead, ...Object.keys(bench.faults).map((fault) => withFault(dead, fault))].flatMap((situation) => {
      const solution = solve(prepared, situation);
      if (!solution.ok) return [];
      return pairs.flatMap(([a, b]) => {
        const reading = measure(solution, 'resistance', { across: [a, b] });
        if (!reading.ok) return [];
        return [
          {
            a,
            b,
            name: `${situation.faults.join()} ${a}-${b}`,
            reading,
            netlist: writeNetlist(bench, situation, solution, 'dc', { into: a, outOf: b }),
          },
        ];
      });
    });
    const answers = simulate(jobs.map(({ netlist }) => ({ lines: netlist.lines, hertz: 'dc' })));
    const wrong = jobs.flatMap(({ a, b, name, reading, netlist }, i) => {
      const at = (terminal: string): number | undefined => answers[i]?.get(netlist.nodes.get(terminal) ?? '')?.re;
      const apart = netlist.ties.get(a) !== netlist.ties.get(b) || !netlist.nodes.has(a) || !netlist.nodes.has(b);
      const theirs = apart ? Number.POSITIVE_INFINITY : (at(a) ?? Number.NaN) - (at(b) ?? Number.NaN);
      const expected = theirs > MOST_OHMS ? 'open' : theirs;
      const same =
        reading.value === expected ||
        (typeof reading.value === 'number' && typeof expected === 'number' && Math.abs(reading.value - expected) <= SHARE * expected + 1e-6);
      return same ? [] : [`${name}: ours ${reading.value}, theirs ${expected}`];
    });
    expect(wrong).toEqual([]);
    expect(jobs.length).toBeGreaterThan(bench.terminals.length);
  });
});

test('the samples have every kind of part, and every way in which each can break', () => {
  const benches = sampleBenches().map(soundBench);
  const kinds = new Set(benches.flatMap((bench) => Object.values(bench.parts).map(({ kind }) => kind)));
  expect(PART_KIND_NAMES.filter((kind) => !kinds.has(kind))).toEqual([]);
  const modes = new Set(benches.flatMap((bench) => Object.values(bench.faults).map(({ becomes }) => becomes)));
  expect(FAULT_MODES.filter((mode) => !modes.has(mode))).toEqual([]);
  expect([...modes].filter((mode) => /^to |^moved /.test(mode)).length).toBeGreaterThan(2);
});
