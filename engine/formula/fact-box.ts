/** The range that each fact may have on a site, SI. `usual` lies inside it. */
export type FactRange = { readonly usual: number; readonly from: number; readonly to: number };

export type FactBox = Readonly<Record<string, FactRange>>;

/** One choice of a value for each fact. */
export type FactPoint = Readonly<Record<string, number>>;

// All corners of so many facts; above it, only the corners that move one fact or two at a time.
const ALL_CORNERS_OF = 6;
const INSIDE_SAMPLES = 48;

/**
 * The points at which a claim about all facts is tried: usual values, corners, and a fixed low-discrepancy set inside,
 * since a formula need not be monotone. The same box always gives the same points, usual first.
 */
export function factPoints(box: FactBox): readonly FactPoint[] {
  const names = Object.keys(box).filter((name) => {
    const range = box[name];
    return range !== undefined && range.from < range.to;
  });
  const usual = Object.fromEntries(Object.entries(box).map(([name, range]) => [name, range.usual]));
  return [usual, ...corners(box, names).map((c) => ({ ...usual, ...c })), ...inside(box, names).map((c) => ({ ...usual, ...c }))];
}

/** The corners of a fact box over the named facts, each end of each range. */
export function corners(box: FactBox, names: readonly string[]): readonly FactPoint[] {
  if (names.length === 0) return [];
  const end = (name: string, high: boolean): number => (high ? box[name]?.to : box[name]?.from) ?? Number.NaN;
  if (names.length <= ALL_CORNERS_OF) {
    return Array.from({ length: 2 ** names.length }, (_, bits) =>
      Object.fromEntries(names.map((name, i) => [name, end(name, ((bits >> i) & 1) === 1)])),
    );
  }
  const points: FactPoint[] = [];
  for (const [i, a] of names.entries()) {
    for (const high of [false, true]) {
      points.push({ [a]: end(a, high) });
      for (const b of names.slice(i + 1)) for (const other of [false, true]) points.push({ [a]: end(a, high), [b]: end(b, other) });
    }
  }
  return points;
}

// Additive recurrence on the generalised golden ratio (Roberts' R_d sequence): even cover in any number of dimensions.
function inside(box: FactBox, names: readonly string[]): readonly FactPoint[] {
  const d = names.length;
  if (d === 0) return [];
  let phi = 2;
  for (let i = 0; i < 30; i += 1) phi = (1 + phi) ** (1 / (d + 1));
  const steps = names.map((_, i) => (1 / phi) ** (i + 1));
  return Array.from({ length: INSIDE_SAMPLES }, (_, n) =>
    Object.fromEntries(
      names.map((name, i) => {
        const range = box[name];
        const u = (0.5 + (n + 1) * (steps[i] ?? 0)) % 1;
        return [name, range ? range.from + u * (range.to - range.from) : Number.NaN];
      }),
    ),
  );
}
