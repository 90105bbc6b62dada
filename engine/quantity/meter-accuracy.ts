import { failure, type Result, success } from '../result.ts';

/**
 * A meter's accuracy as data sheets give it: ±(percent of reading + counts of the last digit), on a display of so many
 * counts (2000 is a 3½-digit meter). The counts of the display bound how fine a digit can be.
 */
export type MeterAccuracy = { readonly percent: number; readonly counts: number; readonly display: number };

export type MeterAccuracyProblem = { readonly code: 'not-an-accuracy'; readonly text: string };

export const USUAL_METER: MeterAccuracy = { percent: 1, counts: 3, display: 2000 };

const FORM = /^(?:±\s*)?\(?\s*(\d+(?:\.\d+)?)\s*%(?:\s*\+\s*(\d+)\s*(?:counts?|digits?|dgt)?)?\s*\)?(?:\s+on\s+(\d+)\s+counts?)?$/i;

/** Reads `1 % + 3 counts`, `0.7 % + 2 counts on 6000 counts`. */
export function readMeterAccuracy(text: string): Result<MeterAccuracy, MeterAccuracyProblem> {
  const match = FORM.exec(text.trim());
  if (!match) return failure({ code: 'not-an-accuracy', text });
  const display = match[3] === undefined ? USUAL_METER.display : Number(match[3]);
  if (display < 100) return failure({ code: 'not-an-accuracy', text });
  return success({ percent: Number(match[1]), counts: Number(match[2] ?? 0), display });
}

/** The canonical text of an accuracy. */
export function showMeterAccuracy({ percent, counts, display }: MeterAccuracy): string {
  const base = `${percent} % + ${counts} count${counts === 1 ? '' : 's'}`;
  return display === USUAL_METER.display ? base : `${base} on ${display} counts`;
}

/** SI size of one count when an auto-ranging meter of this display shows `si` (ranges of display × 10^n). */
export function countSize(meter: MeterAccuracy, si: number): number {
  const size = Math.abs(si);
  if (size === 0) return 0;
  // The finest range whose full scale still holds the value.
  const exponent = Math.ceil(Math.log10(size / meter.display) - 1e-12);
  return 10 ** exponent;
}

/**
 * Half the width of the interval that the true value lies in, SI. A value typed with fewer digits than the meter shows
 * adds half a step of its own rounding. `typedResolution` is the SI size of the last digit typed.
 */
export function halfWidth(meter: MeterAccuracy, si: number, typedResolution: number): number {
  const shown = countSize(meter, si);
  const count = shown === 0 || typedResolution <= shown ? typedResolution : shown;
  const rounding = typedResolution > count ? typedResolution / 2 : 0;
  return (meter.percent / 100) * Math.abs(si) + meter.counts * count + rounding;
}
