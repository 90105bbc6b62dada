import { describe, expect, it } from 'vitest';
import { diagnosticRates } from './diagnostic-rates.ts';

// The six-state, five-test example of the test-sequencing literature (Pattipati & Alexandridis 1990; numbers from memory), s0 healthy.
const STATES = [
  { prior: 0.7, tests: [0, 0, 0, 0, 0] },
  { prior: 0.01, tests: [0, 1, 0, 0, 1] },
  { prior: 0.02, tests: [0, 0, 1, 1, 0] },
  { prior: 0.1, tests: [1, 0, 0, 1, 1] },
  { prior: 0.05, tests: [1, 1, 0, 0, 0] },
  { prior: 0.12, tests: [1, 1, 1, 1, 0] },
];

function faultsUnder(tests: readonly number[]) {
  const signature = (state: (typeof STATES)[number]) => tests.map((t) => state.tests[t]).join('');
  const [healthy, ...faults] = STATES;
  return faults.map((fault) => ({
    weight: fault.prior,
    group: healthy && signature(fault) === signature(healthy) ? 0 : faults.filter((f) => signature(f) === signature(fault)).length,
  }));
}

// Rates by the formulas of IEEE Std 1522 (formulas from memory; the figures worked out by hand from the table above).
describe('diagnostic rates', () => {
  it('tests t1, t2', () => {
    const rates = diagnosticRates(faultsUnder([0, 1]));
    expect(rates.detected).toBeCloseTo(0.9333, 4);
    expect(rates.isolated1).toBeCloseTo(0.3929, 4);
    expect(rates.isolated2).toBe(1);
    expect(rates.meanGroup).toBeCloseTo(1.6071, 4);
  });

  it('tests t2, t4', () => {
    const rates = diagnosticRates(faultsUnder([1, 3]));
    expect(rates.detected).toBe(1);
    expect(rates.isolated1).toBeCloseTo(0.4, 12);
    expect(rates.isolated2).toBe(1);
    expect(rates.meanGroup).toBeCloseTo(1.6, 12);
  });

  it('tests t1, t2, t3', () => {
    expect(diagnosticRates(faultsUnder([0, 1, 2]))).toEqual({ detected: 1, isolated1: 1, isolated2: 1, isolated3: 1, meanGroup: 1 });
  });

  it('nothing detected is no division by zero', () => {
    expect(diagnosticRates([{ weight: 1, group: 0 }])).toEqual({ detected: 0, isolated1: 0, isolated2: 0, isolated3: 0, meanGroup: 0 });
  });
});
