import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { asFound, benchSchema, type Complex, nodeDcVolts, nodeVolts, prepare, type Solved, solve } from '../../engine/bench/index.ts';

type TextbookCircuit = {
  readonly id: string;
  readonly source: string;
  readonly f_Hz?: number;
  readonly omega?: number;
  readonly netlist: readonly string[];
  readonly answers: Readonly<Record<string, string | number>>;
};

const CIRCUITS: readonly TextbookCircuit[] = JSON.parse(readFileSync(new URL('../outside/textbook-circuits.json', import.meta.url), 'utf8'));

const circuit = (id: string): TextbookCircuit => {
  const found = CIRCUITS.find((each) => each.id === id);
  if (!found) throw new Error(`no circuit ${id}`);
  return found;
};

// A textbook's source has no resistance; a millionth of an ohm is the least that a bench's part can have.
const IDEAL = '0.000001 ohm';

/** A textbook's netlist as a bench: node 0 is ground, sources in rms volts at their angle. */
function solved({ netlist, f_Hz: hertz, omega, id }: Pick<TextbookCircuit, 'netlist' | 'f_Hz' | 'omega' | 'id'>): Solved {
  const dc = id.includes('-DC-');
  const node = (name: string): string => (name === '0' ? 'ground' : name);
  const parts = netlist.map((line, i): [string, object] => {
    if (line.startsWith('I into')) {
      const [, , into = '', amps = ''] = line.split(' ');
      // A current source: so many volts behind so many ohms that the circuit is nothing to them.
      return [`i${i}`, { kind: 'dc-source', between: [node(into), 'ground'], volts: `${Number(amps) * 1e10} V`, ohms: '10000000000 ohm' }];
    }
    const [kind = '', a = '', b = '', value = ''] = line.split(' ');
    const between = [node(a), node(b)];
    const plain = Number(value).toFixed(12).replace(/0+$/, '').replace(/\.$/, '');
    if (kind.startsWith('V') && dc)
      return [
        `v${i}`,
        { kind: 'dc-source', between: Number(value) < 0 ? [...between].reverse() : between, volts: `${Math.abs(Number(value))} V`, ohms: IDEAL },
      ];
    if (kind.startsWith('V')) {
      const [volts = '', angle = '0'] = value.split('∠');
      return [`v${i}`, { kind: 'source', between, volts: `${volts} V`, phase: Number(angle), ohms: IDEAL }];
    }
    if (kind === 'R') return [`r${i}`, { kind: 'resistor', between, ohms: `${plain} ohm` }];
    if (kind === 'L') return [`l${i}`, { kind: 'inductor', between, inductance: `${plain} H` }];
    return [`c${i}`, { kind: 'capacitor', between, capacitance: `${Number(value) * 1e6} uF` }];
  });
  const terminals = [
    ...new Set(netlist.flatMap((line) => (line.startsWith('I into') ? [line.split(' ')[2] ?? ''] : line.split(' ').slice(1, 3)))),
  ].filter((name) => name !== '0');
  const bench = benchSchema.parse({
    title: id,
    frequency: `${hertz ?? (omega === undefined ? 60 : omega / (2 * Math.PI))} Hz`,
    terminals,
    parts: Object.fromEntries(parts),
  });
  const solution = solve(prepare(bench), asFound(bench));
  if (!solution.ok) throw new Error(`${id}: ${JSON.stringify(solution)}`);
  return solution;
}

const at = (solution: Solved, name: string): Complex =>
  name === '0' ? { re: 0, im: 0 } : (nodeVolts(solution)[name] ?? { re: Number.NaN, im: Number.NaN });
const minus = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const over = (a: Complex, b: Complex): Complex => {
  const size = b.re ** 2 + b.im ** 2;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
};
const real = (re: number): Complex => ({ re, im: 0 });
const j = (im: number): Complex => ({ re: 0, im });
const size = ({ re, im }: Complex): number => Math.hypot(re, im);
const degrees = ({ re, im }: Complex): number => (Math.atan2(im, re) * 180) / Math.PI;

/** One unit of the last digit that was printed. */
const lastDigit = (text: string): number => {
  const [digits = '', exponent = '0'] = text.split('e');
  const decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  return 10 ** (Number(exponent) - decimals);
};

/** Holds a phasor against `a∠b°` or `a+jb` as printed, to one unit of the last digit. */
function expectPrinted(got: Complex, printed: string): void {
  const polar = /^([-\d.e]+)∠([-\d.]+)°?/.exec(printed);
  const rectangular = /^([-\d.e]+?)([+-])j([\d.]+)/.exec(printed);
  if (polar?.[1] && polar[2]) {
    expect(Math.abs(size(got) - Number(polar[1]))).toBeLessThanOrEqual(lastDigit(polar[1]));
    expect(Math.abs(degrees(got) - Number(polar[2]))).toBeLessThanOrEqual(lastDigit(polar[2]));
  } else if (rectangular?.[1] && rectangular[3]) {
    expect(Math.abs(got.re - Number(rectangular[1]))).toBeLessThanOrEqual(lastDigit(rectangular[1]));
    expect(Math.abs(got.im - Number(`${rectangular[2]}${rectangular[3]}`))).toBeLessThanOrEqual(lastDigit(rectangular[3]));
  } else throw new Error(`cannot read “${printed}”`);
}

const answer = ({ answers, id }: TextbookCircuit, name: string): string => {
  const text = answers[name];
  if (text === undefined) throw new Error(`${id} has no ${name}`);
  return String(text);
};

describe('textbook circuits, within their printed digits (each names its source in tests/outside/textbook-circuits.json)', () => {
  test('series R, L, C at 60 Hz: the capacitor has more than the supply', () => {
    const book = circuit('LEC-AC-5.2-series');
    const solution = solved(book);
    const [v1, v2, v3] = ['1', '2', '3'].map((name) => at(solution, name));
    if (!v1 || !v2 || !v3) throw new Error('a node is missing');
    const amps = over(minus(v1, v2), real(250));
    expectPrinted(over(v1, amps), answer(book, 'Z'));
    expectPrinted(amps, answer(book, 'I'));
    expectPrinted(minus(v1, v2), answer(book, 'V_R'));
    expectPrinted(minus(v2, v3), answer(book, 'V_L'));
    expectPrinted(v3, answer(book, 'V_C'));
    expect(size(v3)).toBeGreaterThan(size(v1));
  });

  test('parallel R, L, C', () => {
    const book = circuit('LEC-AC-5.3-parallel');
    const volts = at(solved(book), '1');
    const omega = 2 * Math.PI * 60;
    const amps = { R: over(volts, real(250)), L: over(volts, j(omega * 0.65)), C: times(volts, j(omega * 1.5e-6)) };
    expectPrinted(amps.R, answer(book, 'I_R'));
    expectPrinted(amps.L, answer(book, 'I_L'));
    expectPrinted(amps.C, answer(book, 'I_C'));
    expectPrinted(plus(plus(amps.R, amps.L), amps.C), answer(book, 'I_total'));
  });

  test('three sources in series, and one of them reversed', () => {
    const book = circuit('LEC-AC-sources');
    expectPrinted(at(solved(book), '3'), answer(book, 'V3'));
    const reversed = { ...book, netlist: book.netlist.map((line) => line.replace('V 2 1', 'V 1 2')) };
    expectPrinted(at(solved(reversed), '3'), answer(book, 'V3_with_12V_reversed'));
  });

  test('power of a lagging load', () => {
    const book = circuit('LEC-AC-power');
    const solution = solved(book);
    const amps = over(at(solution, '2'), real(60));
    expectPrinted(over(at(solution, '1'), amps), answer(book, 'Z'));
    const current = size(amps);
    expect(current).toBeCloseTo(Number(answer(book, 'I')), 2);
    expect(current ** 2 * 60).toBeCloseTo(Number(answer(book, 'P_W')), 2);
    expect(current ** 2 * 2 * Math.PI * 60 * 0.16).toBeCloseTo(Number(answer(book, 'Q_VAR')), 2);
    expect(current * 120).toBeCloseTo(Number(answer(book, 'S_VA')), 2);
  });

  test('DC by node voltages', () => {
    const book = circuit('LEC-DC-node2');
    const volts = nodeDcVolts(solved(book));
    expect(volts['1']).toBeCloseTo(Number(answer(book, 'V1')), 5);
    expect(volts['2']).toBeCloseTo(Number(answer(book, 'V2')), 5);
  });

  test('an unbalanced bridge fed by a current', () => {
    const book = circuit('LEC-DC-bridge3');
    const volts = nodeDcVolts(solved(book));
    for (const [node, name] of [
      ['1', 'V1'],
      ['2', 'V2'],
      ['3', 'V3'],
    ] as const) {
      expect(volts[node]).toBeCloseTo(Number(answer(book, name)), 3);
    }
  });

  test('a source with a phase, at another frequency', () => {
    const book = circuit('E84-hw8-complete');
    expectPrinted(at(solved(book), '2'), answer(book, 'V2'));
  });

  test('a capacitor beside a coil at 5000 radians a second', () => {
    const book = circuit('E84-hw5-parallel');
    const solution = solved(book);
    const volts = at(solution, '1');
    const capacitor = times(volts, j(5000 * 10e-6));
    const coil = over(minus(volts, at(solution, '2')), real(20));
    // The key's Z is rounded from rounded currents; its exact value stands beside it.
    expectPrinted(over(volts, plus(capacitor, coil)), '18.824-j15.294');
    expectPrinted(plus(capacitor, coil), '0.384+j0.312');
    expectPrinted(capacitor, answer(book, 'I_C'));
    expectPrinted(coil, answer(book, 'I_RL'));
  });

  test('a control circuit with its transformer, cable, contact and coil, recomputed with another simulator', () => {
    // 28 V behind 2.4 Ω, 50 ft of 18 AWG pair, contact 0.05 Ω, coil 38 Ω + 0.3195 H: 0.2200 A, 27.83 V, 27.79 V, 11 mV.
    const solution = solved({
      id: 'control-circuit',
      f_Hz: 60,
      netlist: ['V e 0 28∠0', 'R e s 2.4', 'R s k 0.6385', 'R k c 0.05', 'R c m 38', 'L m 0 0.3195'],
    });
    const amps = over(minus(at(solution, 'k'), at(solution, 'c')), real(0.05));
    expect(size(amps)).toBeCloseTo(0.22, 4);
    expect(size(at(solution, 's'))).toBeCloseTo(27.83, 2);
    expect(Math.abs(size(at(solution, 'c')) - 27.79)).toBeLessThan(0.01);
    expect(size(minus(at(solution, 'k'), at(solution, 'c')))).toBeCloseTo(0.011, 3);
  });
});
