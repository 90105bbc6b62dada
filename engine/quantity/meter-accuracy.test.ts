import { describe, expect, it } from 'vitest';
import { countSize, halfWidth, readMeterAccuracy, showMeterAccuracy } from './meter-accuracy.ts';

const meter = (text: string) => {
  const read = readMeterAccuracy(text);
  if (!read.ok) throw new Error(text);
  return read.value;
};

describe('meter accuracy', () => {
  // Worked examples, each recomputed: a college physics handout on DMM uncertainties (KPU Phys 1102), 32.00 V at ±(2.5 % + 3 dgt).
  it('2.5 % + 3 counts of 32.00 V is 0.83 V', () => {
    expect(halfWidth(meter('2.5 % + 3 dgt on 4000 counts'), 32, 0.01)).toBeCloseTo(0.83, 9);
  });

  // Meter makers' application notes: 100.0 V at ±(1 % + 2) is 98.8 to 101.2 V. One note prints 99.8 to 101.2; that is an error of the note.
  it('1 % + 2 counts of 100.0 V is 1.2 V', () => {
    expect(halfWidth(meter('1 % + 2 counts'), 100, 0.1)).toBeCloseTo(1.2, 9);
  });

  // The same, 120 V at ±(0.7 % + 2 counts), 0.1 V digits: 118.96 to 121.04 V.
  it('0.7 % + 2 counts of 120.0 V is 1.04 V', () => {
    expect(halfWidth(meter('±(0.7 % + 2 counts)'), 120, 0.1)).toBeCloseTo(1.04, 9);
  });

  it('a value typed with fewer digits than the meter shows adds half a step of its rounding', () => {
    // 24 V on a 3½-digit meter is shown as 24.0: 1 % + 3 × 0.1 + half of 1 V.
    expect(halfWidth(meter('1 % + 3 counts'), 24, 1)).toBeCloseTo(0.24 + 0.3 + 0.5, 9);
  });

  // Ranges of a 3½-digit meter are 200 mV, 2 V, 20 V, 200 V …: common practice.
  it.each([
    [0.15, 0.0001],
    [1.5, 0.001],
    [19.99, 0.01],
    [24.1, 0.1],
    [120, 0.1],
    [1500, 1],
  ])('%d shows steps of %d on a 3½-digit meter', (value, step) => {
    expect(countSize(meter('1 % + 3 counts'), value)).toBeCloseTo(step, 12);
  });

  it('is written in one form', () => {
    expect(showMeterAccuracy(meter('1%+3'))).toBe('1 % + 3 counts');
    expect(showMeterAccuracy(meter('0.5 % + 1 digit on 6000 counts'))).toBe('0.5 % + 1 count on 6000 counts');
    expect(readMeterAccuracy('about 1 %').ok).toBe(false);
  });
});
