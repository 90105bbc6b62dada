import { describe, expect, it } from 'vitest';
import { asFound, type Bench, measure, prepare, signsOf, solve } from '../../engine/bench/index.ts';
import { countSize, halfWidth, USUAL_METER } from '../../engine/quantity/index.ts';
import {
  BenchShows,
  diagnosisOf,
  type Evidence,
  FLOOR,
  MODEL_SPREAD,
  PRIORS,
  SHOWS_ANYTHING,
  suspectsOf,
  unknownDensity,
} from '../../engine/suspects/index.ts';
import { untouched } from '../../engine/walk/index.ts';
import { dice } from './random-matrix.ts';
import { randomString } from './small-benches.ts';

type Reading =
  | { readonly kind: 'volts'; readonly across: readonly [string, string]; readonly found: number }
  | { readonly kind: 'runs'; readonly found: boolean };

/** Everything by enumeration: each fault, each of many houses, each reading, with nothing of the engine but its solver and meter. */
function enumerated(
  bench: Bench,
  readings: readonly Reading[],
  houses: number,
): { readonly byFault: Readonly<Record<string, number>>; readonly unknown: number } {
  const prepared = prepare(bench);
  const whole = Object.values(bench.faults).reduce((sum, { weight }) => sum + weight, 0);
  const known = 1 - PRIORS.nothingWrong - PRIORS.unknown;
  const all: { name: string; faults: string[]; prior: number }[] = [
    { name: '', faults: [], prior: PRIORS.nothingWrong },
    ...Object.entries(bench.faults).map(([name, { weight }]) => ({ name, faults: [name], prior: (known * weight) / whole })),
  ];
  const volts = Array.from({ length: houses }, (_, i) => 21 + (6 * (i + 0.5)) / houses);
  const facts: Record<string, number>[] = Object.keys(bench.facts).length === 0 ? [{}] : volts.map((value) => ({ 'supply-volts': value }));
  // fits[reading][hypothesis]: density over that of not knowing anything.
  const fits: number[][] = readings.map((reading) =>
    all.map(({ faults }): number => {
      let sum = 0;
      for (const house of facts) {
        const solved = solve(prepared, { ...asFound(bench), facts: { ...asFound(bench).facts, ...house }, faults });
        if (!solved.ok) throw new Error(solved.reason);
        if (reading.kind === 'runs') sum += signsOf(solved).runs === reading.found ? 1 : 0;
        else {
          const shown = measure(solved, 'ac-voltage', { across: reading.across });
          if (!shown.ok || shown.value === 'open') throw new Error('no volts');
          const half = halfWidth(USUAL_METER, reading.found, countSize(USUAL_METER, reading.found));
          const deviation = Math.hypot(half / 2, MODEL_SPREAD.share * shown.value, MODEL_SPREAD.least['ac-voltage'] ?? 0);
          sum += Math.exp(-0.5 * ((reading.found - shown.value) / deviation) ** 2) / (deviation * Math.sqrt(2 * Math.PI));
        }
      }
      const mean = sum / facts.length;
      if (reading.kind === 'runs') return ((1 - FLOOR) * mean + FLOOR / 2) / 0.5;
      const nothing = unknownDensity('ac-voltage', reading.found);
      return ((1 - FLOOR) * mean + FLOOR * nothing) / nothing;
    }),
  );
  const joint = all.map(({ prior }, i) => fits.reduce((product, row) => product * (row[i] ?? 1), prior));
  const priors = all.reduce((sum, { prior }) => sum + prior, 0);
  const unknown = fits.reduce<number>(
    (product, row) =>
      product * (SHOWS_ANYTHING + (1 - SHOWS_ANYTHING) * row.reduce((mean, fit, i) => mean + ((all[i]?.prior ?? 0) / priors) * fit, 0)),
    PRIORS.unknown,
  );
  const sum = joint.reduce((a, b) => a + b, unknown);
  return { byFault: Object.fromEntries(all.map(({ name }, i) => [name, (joint[i] ?? 0) / sum])), unknown: unknown / sum };
}

/** Readings as a tech would take them with one fault in: rounded to a tenth of a volt. */
function takeReadings(bench: Bench, fault: string, supply: number, roll: () => number): readonly Reading[] {
  const base = asFound(bench);
  const facts = Object.keys(bench.facts).length === 0 ? {} : { 'supply-volts': supply };
  const solved = solve(prepare(bench), { ...base, facts, faults: [fault] });
  if (!solved.ok) throw new Error(solved.reason);
  const points = bench.terminals.filter((terminal) => terminal !== 'C');
  const readings: Reading[] = [{ kind: 'runs', found: signsOf(solved).runs ?? false }];
  for (let i = 0; i < 2; i += 1) {
    const across = [points[Math.floor(roll() * points.length)] ?? 'P0', 'C'] as const;
    const shown = measure(solved, 'ac-voltage', { across });
    if (shown.ok && shown.value !== 'open') readings.push({ kind: 'volts', across, found: Math.round(shown.value * 10) / 10 });
  }
  return readings;
}

function evidence(bench: Bench, readings: readonly Reading[]): readonly Evidence[] {
  const circuit = untouched(asFound(bench).settings);
  return readings.map(
    (reading): Evidence =>
      reading.kind === 'runs'
        ? { probe: { kind: 'look', sign: 'runs' }, circuit, found: Number(reading.found), halfWidth: 0, repaired: [] }
        : {
            probe: { kind: 'reading', takes: 'ac-voltage', across: reading.across },
            circuit,
            found: reading.found,
            halfWidth: halfWidth(USUAL_METER, reading.found, countSize(USUAL_METER, reading.found)),
            repaired: [],
          },
  );
}

/** The greatest difference of any probability. */
function farthest(bench: Bench, readings: readonly Reading[], houses: number): number {
  const suspects = suspectsOf(diagnosisOf(new Map([['bench', new BenchShows(bench)]]), evidence(bench, readings)));
  const other = enumerated(bench, readings, houses);
  const ours: Record<string, number> = {
    '': suspects.nothingWrong,
    ...Object.fromEntries(suspects.faults.map(({ fault, probability }) => [fault, probability])),
  };
  return Math.max(
    Math.abs(suspects.unknown - other.unknown),
    ...Object.entries(other.byFault).map(([name, probability]) => Math.abs(probability - (ours[name] ?? 0))),
  );
}

describe('the posterior on random strings of contacts', () => {
  it('is what enumerating every fault gives, where the site has no facts', () => {
    const roll = dice(5);
    for (let i = 0; i < 40; i += 1) {
      const bench = randomString(roll, false);
      const faults = Object.keys(bench.faults);
      const readings = takeReadings(bench, faults[Math.floor(roll() * faults.length)] ?? '', 24, roll);
      expect(farthest(bench, readings, 1)).toBeLessThan(1e-6);
    }
  });

  it('comes near what enumerating every fault in 200 houses gives, where the supply is not known', () => {
    const roll = dice(8);
    for (let i = 0; i < 25; i += 1) {
      const bench = randomString(roll, true);
      const faults = Object.keys(bench.faults);
      const readings = takeReadings(bench, faults[Math.floor(roll() * faults.length)] ?? '', 21 + roll() * 6, roll);
      // Three houses stand for two hundred; each reading's spread is then a little other.
      expect(farthest(bench, readings, 200)).toBeLessThan(0.07);
    }
  });
});

describe('what does not fit', () => {
  const bench = randomString(dice(3), false);
  const shows = new Map([['bench', new BenchShows(bench)]]);
  const circuit = untouched(asFound(bench).settings);
  const volts = (point: string, found: number): Evidence => ({
    probe: { kind: 'reading', takes: 'ac-voltage', across: [point, 'C'] },
    circuit,
    found,
    halfWidth: 0.3,
    repaired: [],
  });
  const dead: Evidence = { probe: { kind: 'look', sign: 'runs' }, circuit, found: 0, halfWidth: 0, repaired: [] };

  it('a reading that no fault predicts opens something unknown and is named', () => {
    const before = suspectsOf(diagnosisOf(shows, [dead]));
    const after = suspectsOf(diagnosisOf(shows, [dead, volts('P0', 160)]));
    expect(before.contradictions).toEqual([]);
    expect(before.unknown).toBeLessThan(0.05);
    expect(after.contradictions.map(({ code }) => code)).toEqual(['nothing-predicts']);
    expect(after.unknown).toBeGreaterThan(0.3);
    expect(suspectsOf(diagnosisOf(shows, [dead, volts('P0', 160), volts('P1', 160)])).unknown).toBeGreaterThan(0.9);
  });

  it('two readings that no one fault gives together are named, and neither is taken for certain', () => {
    // Volts behind the first contact and none before it.
    const { contradictions, faults, unknown } = suspectsOf(diagnosisOf(shows, [dead, volts('P0', 24), volts('P1', 0), volts('P2', 24)]));
    expect(contradictions.map(({ code }) => code)).toContain('does-not-fit');
    expect(unknown).toBeGreaterThan(0.05);
    expect(faults[0]?.probability).toBeLessThan(0.95);
  });
});

describe('after a repair that did not help', () => {
  const bench = randomString(dice(3), false);
  const shows = new Map([['bench', new BenchShows(bench)]]);
  const circuit = untouched(asFound(bench).settings);
  const look = (repaired: readonly string[]): Evidence => ({ probe: { kind: 'look', sign: 'runs' }, circuit, found: 0, halfWidth: 0, repaired });
  const volts = (point: string, found: number, repaired: readonly string[]): Evidence => ({
    probe: { kind: 'reading', takes: 'ac-voltage', across: [point, 'C'] },
    circuit,
    found,
    halfWidth: 0.3,
    repaired,
  });

  it('the fault is out, and a second one beside it explains what was read before', () => {
    const first = [look([]), volts('P0', 24, []), volts('P1', 0, [])];
    expect(suspectsOf(diagnosisOf(shows, first)).faults[0]?.fault).toBe('open-0');
    // The first contact is new, and volts stand behind it now; the load still does not run.
    const second = suspectsOf(diagnosisOf(shows, [...first, look(['open-0']), volts('P1', 24, ['open-0']), volts('P2', 0, ['open-0'])], ['open-0']));
    expect(second.faults.map(({ fault }) => fault)).not.toContain('open-0');
    expect(second.faults[0]?.fault).toBe('open-1');
    expect(second.faults[0]?.second).toBeGreaterThan(0.5 * (second.faults[0]?.probability ?? 0));
    expect(second.nothingWrong).toBe(0);
  });
});
