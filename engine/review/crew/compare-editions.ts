import type { EditionPicture, MinutesBins } from '../crew-picture.ts';
import { type Interval, type Moments, shareDifference, welch } from './intervals.ts';

/** How the later of two editions differs from the earlier. What one of them has too few calls for is left out. */
export type EditionComparison = {
  /** Minutes to close a call. */
  readonly minutes?: Interval;
  /** Share of closed calls that ended fixed, or with nothing wrong. */
  readonly solved?: Interval;
  /** Share of findings heard of later that held. */
  readonly held?: Interval;
};

/** Closed calls that each edition must have before anything is said of the two. */
export const LEAST_CLOSED = 10;

/** A difference whose interval holds 0 is no difference that anyone should act on. */
export const isSure = ({ low, high }: Interval): boolean => low > 0 || high < 0;

export function compareEditions(earlier: EditionPicture, later: EditionPicture): EditionComparison {
  if (earlier.closed < LEAST_CLOSED || later.closed < LEAST_CLOSED) return {};
  const minutes = welch(momentsOfPicture(later), momentsOfPicture(earlier))?.difference;
  const solved = shareDifference(solvedIn(later), later.closed, solvedIn(earlier), earlier.closed);
  const [a, b] = [heardOf(later), heardOf(earlier)];
  const held = a.all >= LEAST_CLOSED && b.all >= LEAST_CLOSED ? shareDifference(a.held, a.all, b.held, b.all) : undefined;
  return { ...(minutes && { minutes }), ...(solved && { solved }), ...(held && { held }) };
}

const solvedIn = ({ outcomes }: EditionPicture): number => (outcomes.fixed ?? 0) + (outcomes['nothing-wrong'] ?? 0);

const heardOf = ({ findings }: EditionPicture): { readonly held: number; readonly all: number } =>
  findings.reduce((sum, { held, cameBack }) => ({ held: sum.held + held, all: sum.all + held + cameBack }), { held: 0, all: 0 });

/** The mean is exact; the variance is that of the bins' middles. */
function momentsOfPicture({ closed, minutes, minutesSum }: EditionPicture): Moments {
  const rows = Object.entries(minutes).map(([bin, n]) => ({ middle: middleOf(Number(bin)), n }));
  const mean = rows.reduce((sum, { middle, n }) => sum + middle * n, 0) / Math.max(1, closed);
  const variance = closed < 2 ? 0 : rows.reduce((sum, { middle, n }) => sum + n * (middle - mean) ** 2, 0) / (closed - 1);
  return { n: closed, mean: minutesSum / Math.max(1, closed), variance };
}

const edge = (bin: number): number => (bin <= 0 ? 0 : 2 ** (bin / 4) / 60);
const middleOf = (bin: number): number => (edge(bin) + edge(bin + 1)) / 2;

/** The minutes below which a share `q` of the counted lie; within a bin as if spread evenly. Undefined for none. */
export function quantileOf(bins: MinutesBins, q: number): number | undefined {
  const rows = Object.entries(bins)
    .map(([bin, n]) => ({ bin: Number(bin), n }))
    .filter(({ n }) => n > 0)
    .sort((a, b) => a.bin - b.bin);
  const whole = rows.reduce((sum, { n }) => sum + n, 0);
  if (whole === 0) return undefined;
  let left = q * whole;
  for (const { bin, n } of rows) {
    if (left <= n) return edge(bin) + (left / n) * (edge(bin + 1) - edge(bin));
    left -= n;
  }
  const last = rows.at(-1);
  return last && edge(last.bin + 1);
}
