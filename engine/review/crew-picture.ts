/** Counts of values on a scale that doubles every four bins: bin = floor(4 · log2(seconds)), 0 below a second. Whence quartiles and a drawing, for any number of walks. */
export type MinutesBins = Readonly<Record<string, number>>;

/** What a crew's walks did at one step. */
export type PictureStep = {
  readonly tree: string;
  readonly step: string;
  readonly stays: number;
  readonly minutes: MinutesBins;
  /** Sum, so that means are exact. */
  readonly minutesSum: number;
  readonly couldNot: number;
  readonly tooClose: number;
  readonly acceptedTooClose: number;
  readonly jumpedTo: number;
  readonly steppedBack: number;
  /** Ways taken, by their name; a stay without a way counts in none. */
  readonly ways: Readonly<Record<string, number>>;
};

/** Walks of one edition of a tree. `walks` counts every one; all the rest is of those that are closed. */
export type EditionPicture = {
  readonly edition: string;
  readonly walks: number;
  readonly closed: number;
  readonly minutes: MinutesBins;
  readonly minutesSum: number;
  readonly outcomes: Readonly<Record<string, number>>;
  readonly findings: readonly {
    readonly tree: string;
    readonly step: string;
    readonly walks: number;
    /** How many were later confirmed, and how many came back or were another fault. */
    readonly held: number;
    readonly cameBack: number;
  }[];
  readonly steps: readonly PictureStep[];
};

type Open<T> = T extends readonly (infer U)[] ? Open<U>[] : T extends object ? { -readonly [K in keyof T]: Open<T[K]> } : T;

/** Pictures while they are being counted. */
export type OpenPicture = Open<EditionPicture>;
export type OpenPictureStep = Open<PictureStep>;

/** Counts by name. A way or an outcome may be named like something that every object has. */
const tally = (): Record<string, number> => Object.create(null) as Record<string, number>;

export const emptyPicture = (edition: string): OpenPicture => ({
  edition,
  walks: 0,
  closed: 0,
  minutes: tally(),
  minutesSum: 0,
  outcomes: tally(),
  findings: [],
  steps: [],
});

export const emptyPictureStep = (tree: string, step: string): OpenPictureStep => ({
  tree,
  step,
  stays: 0,
  minutes: tally(),
  minutesSum: 0,
  couldNot: 0,
  tooClose: 0,
  acceptedTooClose: 0,
  jumpedTo: 0,
  steppedBack: 0,
  ways: tally(),
});

/** What is counted under a key; where there is nothing yet, a new one at the end of the list. */
export function added<T>(known: Map<string, T>, key: string, list: T[], fresh: () => T): T {
  const there = known.get(key);
  if (there) return there;
  const made = fresh();
  known.set(key, made);
  list.push(made);
  return made;
}

export function addTo(counts: Record<string, number>, key: string | number, n = 1): void {
  counts[key] = (counts[key] ?? 0) + n;
}

/** Where a crew's walks of one tree go; editions oldest first. Drills are left out. */
export type CrewPicture = { readonly tree: string; readonly editions: readonly EditionPicture[] };

export const minutesBin = (minutes: number): number => {
  const seconds = minutes * 60;
  return seconds < 1 ? 0 : Math.floor(4 * Math.log2(seconds));
};
