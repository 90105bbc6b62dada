import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bench } from '../../../engine/bench/index.ts';
import { SHIPPED } from '../../../tests/browser/ladder/shipped-benches.ts';
import type { LadderLayout, PlacedText } from './ladder-layout.ts';
import { type LayoutOptions, layoutLadder } from './layout-ladder.ts';
import { meet } from './obstacles.ts';
import { crossings, drawnNets } from './testing/drawn-nets.ts';
import { anyBench, anyState, benchOf, controlBench, partBetween, transformerBetween } from './testing/random-bench.ts';
import { plateOf, type Rect, textBox } from './text-box.ts';

const RUNS = { seed: 71, numRuns: 300 };
const WIDTHS = [320, 360, 720, 1200] as const;

type End = readonly [part: string, piece: string, nodes: readonly [string, string]];

function endsIn(bench: Bench): readonly End[] {
  return Object.entries(bench.parts).flatMap(([part, spec]): End[] => {
    if (spec.kind === 'transformer') {
      return [
        [part, 'primary', spec.primary],
        [part, 'secondary', spec.secondary],
      ];
    }
    return 'between' in spec ? [[part, 'whole', spec.between]] : [];
  });
}

/** Same net on the drawing exactly where the bench has the same node; every part once. */
function expectSameCircuit(bench: Bench, layout: LadderLayout): void {
  const { ends, named } = drawnNets(layout);
  const wanted = endsIn(bench);
  expect(ends.map(({ part, piece }) => `${part} ${piece}`).toSorted()).toEqual(wanted.map(([part, piece]) => `${part} ${piece}`).toSorted());
  const netOf = new Map<string, number>();
  for (const [part, piece, nodes] of wanted) {
    const drawn = ends.find((end) => end.part === part && end.piece === piece);
    nodes.forEach((node, i) => {
      const net = drawn?.nets[i] ?? -1;
      if (netOf.has(node)) expect([part, node, net]).toEqual([part, node, netOf.get(node)]);
      netOf.set(node, net);
    });
  }
  expect(new Set(netOf.values()).size).toBe(netOf.size);
  for (const [name, net] of named) if (netOf.has(name)) expect([name, net]).toEqual([name, netOf.get(name)]);
}

/** The bench with each lifted end on a node of the lead's own name. */
function withLiftedEnds(bench: Bench, lifted: readonly string[]): Bench {
  const parts = Object.entries(bench.parts).map(([name, spec]) => {
    if (!('lead' in spec) || typeof spec.lead !== 'string' || !('between' in spec)) return [name, spec] as const;
    const [lead = '', on] = spec.lead.split(' on ');
    if (!lifted.includes(lead)) return [name, spec] as const;
    const [a, b] = spec.between;
    return [name, { ...spec, between: on === a ? [lead, b] : [a, lead] }] as const;
  });
  return { ...bench, parts: Object.fromEntries(parts) as Bench['parts'] };
}

function overlaps({ texts }: LadderLayout): readonly (readonly [string, string])[] {
  return texts.flatMap((one, i) =>
    texts.slice(i + 1).flatMap((other) => (meet(plateOf(one), plateOf(other)) ? [[one.text, other.text] as const] : [])),
  );
}

/** Names that a line runs through. A jumper's name lies on its plate over whatever it crosses, and a tag's name in its tag. */
function struckOut({ lines, texts, symbols, flags }: LadderLayout): readonly string[] {
  const free = texts.filter(({ kind, of }) => kind !== 'jumper' && !(kind === 'node' && flags.some(({ node }) => node === of)));
  const onLine = (box: Rect): boolean =>
    lines.some(({ x1, y1, x2, y2 }) => meet(box, { x: Math.min(x1, x2), y: Math.min(y1, y2), width: Math.abs(x2 - x1), height: Math.abs(y2 - y1) }));
  const bodyOf = ({ x, y, width, core }: LadderLayout['symbols'][number]): Rect =>
    core === undefined
      ? { x: x - width / 2, y: y - 5, width, height: 10 }
      : { x: x - width / 2, y: Math.min(y, core), width, height: Math.abs(core - y) };
  const onSymbol = (box: Rect): boolean => symbols.some((symbol) => symbol.shape !== 'wire' && meet(box, bodyOf(symbol)));
  return free.filter((text) => onLine(textBox(text)) || onSymbol(textBox(text))).map(({ text }) => text);
}

const nodeNames = ({ texts }: LadderLayout): readonly string[] => texts.filter(({ kind }: PlacedText) => kind === 'node').map(({ text }) => text);

function expectWell(bench: Bench, options: LayoutOptions): void {
  const layout = layoutLadder(bench, options);
  expectSameCircuit(bench, layout);
  expect(overlaps(layout)).toEqual([]);
  expect(crossings(layout)).toEqual([]);
  expect(struckOut(layout)).toEqual([]);
  for (const terminal of bench.terminals) {
    expect(layout.points.some(({ node, role }) => node === terminal && role === 'terminal')).toBe(true);
    expect(nodeNames(layout)).toContain(terminal);
  }
  const keys = [
    ...layout.lines.map(({ node, x1, y1, x2, y2 }) => `line ${node} ${x1} ${y1} ${x2} ${y2}`),
    ...layout.points.map(({ node, x, y }) => `point ${node} ${x} ${y}`),
    ...layout.texts.map(({ kind, of, x, y }) => `text ${kind} ${of} ${x} ${y}`),
    ...layout.grounds.map(({ node, x, y }) => `ground ${node} ${x} ${y}`),
    ...layout.flags.map(({ node, x, y }) => `flag ${node} ${x} ${y}`),
    ...layout.symbols.map(({ part, piece }) => `symbol ${part} ${piece}`),
  ];
  expect(keys.filter((key, i) => keys.indexOf(key) !== i)).toEqual([]);
  const numbers = [...layout.lines.flatMap(({ x1, y1, x2, y2 }) => [x1, y1, x2, y2]), ...layout.symbols.flatMap(({ x, y }) => [x, y])];
  expect(numbers.filter((number) => !Number.isInteger(number))).toEqual([]);
  const inside = [...layout.texts.map(plateOf)].filter(
    ({ x, y, width, height }) => x < 0 || y < 0 || x + width > layout.width || y + height > layout.height,
  );
  expect(inside).toEqual([]);
}

describe('layoutLadder on the shipped benches', () => {
  it.each(SHIPPED)('%s: the same circuit, every part once, no text on text or line', (_file, bench) => {
    for (const width of WIDTHS) for (const pick of [false, true]) expectWell(bench, { width, pick });
  });

  it.each(SHIPPED)('%s: fits a phone without scrolling', (_file, bench) => {
    expect(layoutLadder(bench, { width: 344 }).width).toBeLessThanOrEqual(344);
    expect(layoutLadder(bench, { width: 344, pick: true }).width).toBeLessThanOrEqual(344);
  });

  it.each(SHIPPED)('%s: lists what has no ends and draws all else', (_file, bench) => {
    const { undrawn } = layoutLadder(bench);
    const endless = Object.entries(bench.parts).filter(([, spec]) => !('between' in spec) && spec.kind !== 'transformer');
    expect(undrawn).toEqual(endless.map(([part]) => ({ part, why: 'no-ends' })));
  });

  it.each(SHIPPED)('%s: hot is on the left of every supply', (_file, bench) => {
    for (const { shape, piece, ports } of layoutLadder(bench, { width: 1200 }).symbols) {
      if (shape === 'source' || piece === 'secondary') expect(ports[0].x === ports[1].x).toBe(false);
      if (piece === 'secondary') expect(ports[0].x).toBeLessThan(ports[1].x);
    }
  });

  it.each(SHIPPED)('%s: any two terminals in focus are drawn, and nothing is lost', (_file, bench) => {
    for (const red of bench.terminals) {
      for (const black of bench.terminals.slice(0, 6)) {
        if (red === black) continue;
        const layout = layoutLadder(bench, { width: 360, focus: [red, black], leads: { red, black } });
        expect(layout.probes.map(({ node }) => node)).toEqual([red, black]);
        expect(overlaps(layout)).toEqual([]);
        const parts = new Set([...layout.symbols.map(({ part }) => part), ...layout.undrawn.map(({ part }) => part)]);
        expect([...parts].toSorted()).toEqual(Object.keys(bench.parts).toSorted());
      }
    }
  });
});

describe('layoutLadder on any bench', () => {
  it('draws the same circuit, whatever the bench', () => {
    fc.assert(
      fc.property(anyBench, fc.constantFrom(...WIDTHS), fc.boolean(), (bench, width, pick) => expectWell(bench, { width, pick })),
      RUNS,
    );
  });

  it('draws the same circuit for control circuits with many rungs', () => {
    fc.assert(
      fc.property(controlBench, fc.constantFrom(...WIDTHS), (bench, width) => expectWell(bench, { width })),
      RUNS,
    );
  });

  it('finds room for leads, jumpers, lifted leads, states and faults', () => {
    const marked = fc.oneof(anyBench, controlBench).chain((bench) => anyState(bench).map((more) => ({ bench, ...more })));
    fc.assert(
      fc.property(marked, fc.constantFrom(...WIDTHS), ({ bench, state, leads }, width) => {
        const layout = layoutLadder(bench, { width, state, leads });
        expectSameCircuit(withLiftedEnds(bench, state.lifted ?? []), layout);
        expect(overlaps(layout)).toEqual([]);
        expect(struckOut(layout)).toEqual([]);
        expect(layout.probes.map(({ node }) => node)).toEqual([leads.red, leads.black]);
        const jumpers = (state.jumpers ?? []).filter(({ from, to }) => from !== to);
        expect(layout.jumpers.map(({ from, to }) => [from, to])).toEqual(jumpers.map(({ from, to }) => [from, to]));
      }),
      RUNS,
    );
  });

  it('gives the same drawing for the same bench', () => {
    fc.assert(
      fc.property(anyBench, (bench) => {
        expect(layoutLadder(structuredClone(bench))).toEqual(layoutLadder(bench));
      }),
      { ...RUNS, numRuns: 60 },
    );
  });
});

describe('layoutLadder', () => {
  it('joins a transformer between the ladder above and the one below, one winding over the other', () => {
    const bench = benchOf([
      partBetween('source', ['L1', 'N']),
      transformerBetween(['L1', 'N'], ['R', 'C']),
      partBetween('contact', ['R', 'W']),
      partBetween('coil', ['W', 'C']),
    ]);
    const [primary, secondary] = layoutLadder(bench).symbols.filter(({ shape }) => shape === 'winding');
    expect(primary?.core).toBe(secondary?.core);
    expect(primary?.core).toBeGreaterThan(primary?.y ?? Number.POSITIVE_INFINITY);
    expect(primary?.x).toBe(secondary?.x);
    expect(secondary?.y).toBeGreaterThan(primary?.y ?? Number.POSITIVE_INFINITY);
  });

  it('hangs the cross arm of a bridge from one side, tagged with the other', () => {
    const bench = benchOf([
      partBetween('source', ['A', 'D']),
      partBetween('resistor', ['A', 'B']),
      partBetween('resistor', ['A', 'C']),
      partBetween('load', ['B', 'C']),
      partBetween('resistor', ['B', 'D']),
      partBetween('resistor', ['C', 'D']),
    ]);
    const layout = layoutLadder(bench);
    expect(layout.flags).toHaveLength(1);
    expectSameCircuit(bench, layout);
  });

  it('folds a long rung on a phone and not on a desk', () => {
    const rung = Array.from({ length: 12 }, (_, i) =>
      partBetween(i % 2 ? 'wire' : 'contact', [i === 0 ? 'R' : `M${i}`, i === 11 ? 'V' : `M${i + 1}`]),
    );
    const bench = benchOf([partBetween('source', ['R', 'C']), ...rung, partBetween('coil', ['V', 'C'])]);
    const rows = (width: number): number => new Set(layoutLadder(bench, { width }).symbols.map(({ y }) => y)).size;
    expect(rows(1200)).toBe(2);
    expect(rows(360)).toBeGreaterThan(2);
    expect(layoutLadder(bench, { width: 360 }).width).toBeLessThanOrEqual(360);
  });
});
