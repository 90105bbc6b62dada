import fc from 'fast-check';
import { Matrix, solve as solveByReference } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  asFound,
  benchSchema,
  measure,
  nodeVolts,
  prepare,
  type Solved,
  solve,
  voltsAmong,
  withFacts,
  withFault,
  withJumper,
  withLanded,
  withLifted,
  withoutFault,
  withoutJumper,
  withSetting,
} from '../../engine/bench/index.ts';
import { emptyField, solveField } from '../../engine/bench/network.ts';
import { sampleBenches, soundBench } from './bench-files.ts';
import { randomBench, terminals } from './random-bench.ts';

const RUNS = { numRuns: 300, seed: 60_120 };

type Phasor = { readonly re: number; readonly im: number };

const solvedOf = (bench: Parameters<typeof prepare>[0]): Solved => {
  const solution = solve(prepare(bench), asFound(bench));
  if (!solution.ok) throw new Error(JSON.stringify(solution));
  return solution;
};

const isOn = ({ states }: Solved, part: number, switched: boolean): boolean => !switched || states[part] !== 0;

/** Each piece's current out of each node, from its admittance and the node volts; summed up here, not by the solver. */
function currents(solution: Solved): { readonly left: readonly Phasor[]; readonly through: readonly number[]; readonly power: Phasor } {
  const { circuit, ac } = solution;
  const left = Array.from({ length: circuit.size }, () => ({ re: 0, im: 0 }));
  const through = new Array<number>(circuit.size).fill(0);
  let power = { re: 0, im: 0 };
  const at = (node: number): Phasor => (node < 0 ? { re: 0, im: 0 } : { re: ac.re[node] ?? 0, im: ac.im[node] ?? 0 });
  const leave = (node: number, i: Phasor): void => {
    const v = at(node);
    power = { re: power.re + v.re * i.re + v.im * i.im, im: power.im + v.im * i.re - v.re * i.im };
    const sum = left[node];
    if (!sum) return;
    left[node] = { re: sum.re + i.re, im: sum.im + i.im };
    through[node] = (through[node] ?? 0) + Math.hypot(i.re, i.im);
  };
  for (const { a, b, part, on, off, switched, driveRe, driveIm } of circuit.branches) {
    const closed = isOn(solution, part, switched);
    const y = closed ? on : off;
    const [va, vb] = [at(a), at(b)];
    const [dr, di] = [va.re - vb.re, va.im - vb.im];
    const i = { re: y.re * dr - y.im * di - (closed ? driveRe : 0), im: y.re * di + y.im * dr - (closed ? driveIm : 0) };
    leave(a, i);
    leave(b, { re: -i.re, im: -i.im });
  }
  for (const { ends, ratio, conductance } of circuit.transformers) {
    const [p, q, s, t] = ends.map(at);
    if (!p || !q || !s || !t) continue;
    const secondary = { re: conductance * (ratio * (p.re - q.re) - (s.re - t.re)), im: conductance * (ratio * (p.im - q.im) - (s.im - t.im)) };
    const primary = { re: ratio * secondary.re, im: ratio * secondary.im };
    leave(ends[0], primary);
    leave(ends[1], { re: -primary.re, im: -primary.im });
    leave(ends[2], { re: -secondary.re, im: -secondary.im });
    leave(ends[3], secondary);
  }
  return { left, through, power };
}

describe('laws that every solution keeps (random circuits)', () => {
  test('Kirchhoff: the currents at every node add up to nothing, and so do the powers of all pieces (Tellegen)', () => {
    fc.assert(
      fc.property(randomBench, (bench) => {
        const solution = solvedOf(bench);
        const { left, through, power } = currents(solution);
        left.forEach((sum, node) => {
          expect(Math.hypot(sum.re, sum.im)).toBeLessThanOrEqual(1e-9 * (through[node] ?? 0) + 1e-11);
        });
        const most = Math.max(1, ...through) * 1000;
        expect(Math.hypot(power.re, power.im)).toBeLessThan(1e-9 * most);
      }),
      RUNS,
    );
  });

  test('reciprocity: volts here for amps there are volts there for amps here', () => {
    fc.assert(
      fc.property(randomBench, fc.nat(7), fc.nat(7), fc.nat(7), fc.nat(7), (bench, a, b, c, d) => {
        const { circuit, states } = solvedOf(bench);
        const transfer = (into: number, outOf: number, red: number, black: number): Phasor | undefined => {
          const field = emptyField(circuit.size);
          expect(solveField(circuit, states, 'ac', 'sparse', field, { into, outOf })).toBe(-1);
          // Between islands a test current has no way back: no impedance to speak of.
          if (field.island[into] !== field.island[outOf] || field.island[red] !== field.island[black]) return undefined;
          return { re: (field.re[red] ?? 0) - (field.re[black] ?? 0), im: (field.im[red] ?? 0) - (field.im[black] ?? 0) };
        };
        const there = transfer(a, b, c, d);
        const back = transfer(c, d, a, b);
        if (!there || !back) return;
        expect(Math.hypot(there.re - back.re, there.im - back.im)).toBeLessThanOrEqual(1e-7 * (Math.hypot(there.re, there.im) + 1));
      }),
      RUNS,
    );
  });

  test('the sparse order, the dense one and a library agree', () => {
    fc.assert(
      fc.property(randomBench, (bench) => {
        const solution = solvedOf(bench);
        const { circuit, states } = solution;
        const dense = emptyField(circuit.size);
        expect(solveField(circuit, states, 'ac', 'dense', dense)).toBe(-1);
        const library = byLibrary(solution);
        for (let node = 0; node < circuit.size; node += 1) {
          const scale = 1e-6 * (Math.hypot(dense.re[node] ?? 0, dense.im[node] ?? 0) + 1);
          expect(Math.hypot((solution.ac.re[node] ?? 0) - (dense.re[node] ?? 0), (solution.ac.im[node] ?? 0) - (dense.im[node] ?? 0))).toBeLessThan(
            scale,
          );
          expect(
            Math.hypot((solution.ac.re[node] ?? 0) - (library[node]?.re ?? 0), (solution.ac.im[node] ?? 0) - (library[node]?.im ?? 0)),
          ).toBeLessThan(scale);
        }
      }),
      RUNS,
    );
  });

  test('an island that nothing bonds to ground floats with the mean of its nodes at zero', () => {
    fc.assert(
      fc.property(randomBench, (bench) => {
        const { circuit, ac } = solvedOf(bench);
        const sums = new Map<number, { re: number; im: number; size: number }>();
        for (let node = 0; node < circuit.size; node += 1) {
          const island = ac.island[node] ?? -1;
          if (island === ac.island[circuit.size]) continue;
          const sum = sums.get(island) ?? { re: 0, im: 0, size: 0 };
          sums.set(island, {
            re: sum.re + (ac.re[node] ?? 0),
            im: sum.im + (ac.im[node] ?? 0),
            size: sum.size + Math.hypot(ac.re[node] ?? 0, ac.im[node] ?? 0),
          });
        }
        for (const { re, im, size } of sums.values()) expect(Math.hypot(re, im)).toBeLessThanOrEqual(1e-9 * (size + 1));
      }),
      RUNS,
    );
  });

  test('twice the volts of every source are twice the volts of every node', () => {
    fc.assert(
      fc.property(randomBench, (bench) => {
        const doubled = benchSchema.parse({
          ...bench,
          parts: Object.fromEntries(
            Object.entries(bench.parts).map(([name, spec]) => [name, spec.kind === 'source' ? { ...spec, volts: `2 * ${spec.volts}` } : spec]),
          ),
        });
        const [once, twice] = [nodeVolts(solvedOf(bench)), nodeVolts(solvedOf(doubled))];
        for (const [name, volts] of Object.entries(once)) {
          const other = twice[name] ?? { re: Number.NaN, im: Number.NaN };
          expect(Math.hypot(other.re - 2 * volts.re, other.im - 2 * volts.im)).toBeLessThanOrEqual(1e-7 * (Math.hypot(volts.re, volts.im) + 1));
        }
      }),
      RUNS,
    );
  });

  test("a meter's reading is what its input resistance, put in as a part, would have across it", () => {
    fc.assert(
      fc.property(randomBench, fc.constantFrom(...terminals), fc.constantFrom(...terminals), fc.boolean(), (bench, red, black, low) => {
        const solution = solvedOf(bench);
        const reading = measure(solution, 'ac-voltage', { across: [red, black] }, low ? { input: 'low' } : {});
        if (red === black) {
          expect(reading).toMatchObject({ ok: true, value: 0 });
          return;
        }
        const index = (name: string): number => solution.circuit.prepared.index.nodeNumber.get(name) ?? -1;
        // Between two islands the leaks alone close the loop, which a part would not show.
        if (solution.ac.island[index(red)] !== solution.ac.island[index(black)]) return;
        const loaded = benchSchema.parse({
          ...bench,
          parts: { ...bench.parts, meter: { kind: 'resistor', between: [red, black], ohms: low ? '3 kohm' : '10 Mohm' } },
        });
        const volts = nodeVolts(solvedOf(loaded));
        const across = Math.hypot((volts[red]?.re ?? 0) - (volts[black]?.re ?? 0), (volts[red]?.im ?? 0) - (volts[black]?.im ?? 0));
        expect(reading.ok && typeof reading.value === 'number' && Math.abs(reading.value - across)).toBeLessThanOrEqual(1e-6 * (across + 1));
      }),
      RUNS,
    );
  });
});

/** The same nodal equations as a real matrix of twice the size, solved by a general library; islands tied and moved as the solver does. */
function byLibrary(solution: Solved): readonly Phasor[] {
  const { circuit, ac } = solution;
  const n = circuit.size;
  const y = Matrix.zeros(2 * n, 2 * n);
  const right = Matrix.zeros(2 * n, 1);
  const add = (row: number, column: number, re: number, im: number): void => {
    if (row < 0 || column < 0) return;
    y.set(row, column, y.get(row, column) + re);
    y.set(row, column + n, y.get(row, column + n) - im);
    y.set(row + n, column, y.get(row + n, column) + im);
    y.set(row + n, column + n, y.get(row + n, column + n) + re);
  };
  for (const { a, b, part, on, off, switched, driveRe, driveIm } of circuit.branches) {
    const closed = isOn(solution, part, switched);
    const { re, im } = closed ? on : off;
    add(a, a, re, im);
    add(b, b, re, im);
    add(a, b, -re, -im);
    add(b, a, -re, -im);
    if (!closed) continue;
    for (const [node, sign] of [
      [a, 1],
      [b, -1],
    ] as const) {
      if (node < 0) continue;
      right.set(node, 0, right.get(node, 0) + sign * driveRe);
      right.set(node + n, 0, right.get(node + n, 0) + sign * driveIm);
    }
  }
  for (const { ends, ratio, conductance } of circuit.transformers) {
    const weights = [ratio, -ratio, -1, 1];
    for (const [i, row] of ends.entries()) {
      for (const [k, column] of ends.entries()) add(row, column, conductance * (weights[i] ?? 0) * (weights[k] ?? 0), 0);
    }
  }
  const ground = ac.island[n];
  for (let node = 0; node < n; node += 1) if (ac.island[node] === node && node !== ground) add(node, node, 1, 0);
  const x = solveByReference(y, right);
  const raw = Array.from({ length: n }, (_, node) => ({ re: x.get(node, 0), im: x.get(node + n, 0) }));
  return raw.map((volts, node) => {
    const island = ac.island[node];
    if (island === ground) return volts;
    const all = raw.filter((_, other) => ac.island[other] === island);
    const mean = (pick: (phasor: Phasor) => number): number => all.reduce((sum, each) => sum + pick(each), 0) / all.length;
    return { re: volts.re - mean((v) => v.re), im: volts.im - mean((v) => v.im) };
  });
}

test('volts between every two points at once are those that the meter takes one by one', () => {
  for (const bench of sampleBenches().map(soundBench)) {
    const solution = solvedOf(bench);
    for (const line of ['ac', 'dc'] as const) {
      const { plain, low } = voltsAmong(solution, bench.terminals, line);
      for (const [i, red] of bench.terminals.entries()) {
        for (const [j, black] of bench.terminals.entries()) {
          const one = measure(solution, line === 'ac' ? 'ac-voltage' : 'dc-voltage', { across: [red, black] });
          const other = measure(solution, line === 'ac' ? 'ac-voltage' : 'dc-voltage', { across: [red, black] }, { input: 'low' });
          if (!one.ok || !other.ok) throw new Error('no reading');
          expect(Math.abs(Number(one.value) - (plain[i * bench.terminals.length + j] ?? Number.NaN)), `${red} ${black}`).toBeLessThan(1e-6);
          // A low input can move a contact, which only the meter itself follows.
          const moved = Math.abs(Number(other.value) - (low[i * bench.terminals.length + j] ?? Number.NaN)) > 1e-6;
          if (moved) expect(line === 'dc' || Number(one.value) > 5, `${red} ${black}`).toBe(true);
        }
      }
    }
  }
});

describe('edits', () => {
  test('an edit put in and taken back gives the very same solution; the bench is never changed', () => {
    fc.assert(
      fc.property(randomBench, fc.constantFrom(...terminals), fc.constantFrom(...terminals), fc.nat(20), (bench, a, b, which) => {
        const before = JSON.stringify(bench);
        const prepared = prepare(bench);
        const start = asFound(bench);
        const faults = Object.keys(bench.faults);
        const fault = faults[which % Math.max(1, faults.length)];
        const edited = withSetting(withJumper(fault === undefined ? start : withFault(start, fault), a, b), 'one', 'off');
        solve(prepared, edited);
        const back = withSetting(withoutJumper(fault === undefined ? edited : withoutFault(edited, fault), b, a), 'one', 'on');
        expect(back).toEqual(start);
        const [first, again] = [solve(prepared, start), solve(prepare(bench), back)];
        if (!first.ok || !again.ok) throw new Error('not solved');
        expect(nodeVolts(again)).toEqual(nodeVolts(first));
        expect(JSON.stringify(bench)).toBe(before);
      }),
      RUNS,
    );
  });

  test('on every sample: each fault, lead and fact, put in and taken back', () => {
    for (const bench of sampleBenches().map(soundBench)) {
      const prepared = prepare(bench);
      const start = asFound(bench);
      const healthy = solve(prepared, start);
      if (!healthy.ok) throw new Error('not solved');
      const same = (situation: typeof start): void => {
        const again = solve(prepared, situation);
        if (!again.ok) throw new Error('not solved');
        expect(again.ac).toEqual(healthy.ac);
        expect(again.dc).toEqual(healthy.dc);
        expect(again.states).toEqual(healthy.states);
      };
      for (const fault of Object.keys(bench.faults)) {
        const faulty = withFault(start, fault);
        expect(faulty).not.toEqual(start);
        solve(prepared, faulty);
        same(withoutFault(faulty, fault));
      }
      for (const { name } of prepared.index.leads) {
        const lifted = withLifted(start, name);
        solve(prepared, lifted);
        same(withLanded(lifted, name));
      }
      for (const name of Object.keys(bench.facts)) {
        const told = withFacts(start, { [name]: (start.facts[name] ?? 0) * 1.01 });
        solve(prepared, told);
        same(withFacts(told, { [name]: start.facts[name] ?? 0 }));
      }
    }
  });
});
