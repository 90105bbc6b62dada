import { CLASS_2_VOLTS } from '../../bench/index.ts';
import type { MeterAccuracy } from '../../quantity/index.ts';
import type { BenchShows } from '../observe/bench-shows.ts';
import { type Probe, probeKey } from '../observe/probe.ts';
import type { CommonPoints } from './common-points.ts';
import { type Column, newlyTold, undominated } from './isolation-test.ts';
import { outcomesOf } from './outcome-bands.ts';
import { liveProbes, ohmsProbes, type Screened, stanceFreeLooks } from './screened-probes.ts';
import type { Stance } from './set-up-plan.ts';
import { deadStances, liveStances } from './stances.ts';
import type { MinutesModel } from './usual-minutes.ts';

export type Candidate = { readonly probe: Probe; readonly stance: Stance | undefined };

export type ScreenedTests = {
  readonly candidates: readonly Candidate[];
  /** The probe as found that tells most faults, by weight, from a sound circuit; a look if any does. */
  readonly complaint: Probe | undefined;
};

type Shown = Column & { readonly probe: Probe };

/**
 * The probes of a bench that are worth trying in every house, by what they show in the usual one. As found: all that nothing cheaper tells. With a setting changed, a
 * contact bridged or power off: what tells faults apart that no probe as found tells apart in the same minutes, set-up counted.
 */
export function screenTests(
  shows: BenchShows,
  points: CommonPoints,
  minutes: MinutesModel,
  meter: MeterAccuracy,
  faults: readonly (readonly string[])[],
  setUpMinutes: (stance: Stance, probe: Probe) => number | undefined,
): ScreenedTests {
  const live = liveStances(shows.prepared);
  const dead = deadStances(shows.prepared);
  const free = stanceFreeLooks(shows, [...live, ...dead.slice(0, 1)], faults);
  const isFree = (probe: Probe): boolean => free.has(probeKey(probe));
  const columnsOf = (screened: readonly Screened[]): readonly Shown[] =>
    [...screened].sort((a, b) => rank(points, a) - rank(points, b)).flatMap((each) => columnOf(each, meter, minutes) ?? []);
  const [found, ...others] = live;
  const columns = columnsOf(found ? liveProbes(shows, points, found, faults) : []);
  const complaint = complaintAmong(columns, shows, faults);
  const asFound = undominated(columns);
  const first = complaint === undefined || asFound.includes(complaint) ? asFound : [complaint, ...asFound];
  const extras: Extra[] = [];
  const taken = new Set<string>();
  const add = (stance: Stance, screened: readonly Screened[]): void => {
    const name = (probe: Probe): string => `${stance.lifted.join()} ${probeKey(probe)}`;
    for (const { probe, row, minutes: own } of columnsOf(screened.filter(({ probe }) => !isFree(probe) && !taken.has(name(probe))))) {
      const before = setUpMinutes(stance, probe);
      if (before === undefined) continue;
      // The fewest sources cut off that make a reading safe are enough.
      if (dead.includes(stance)) taken.add(name(probe));
      const told = newlyTold(asFound, row, own + before);
      if (told.size > 0) extras.push({ probe, stance, told, minutes: own + before });
    }
  };
  for (const stance of others) add(stance, liveProbes(shows, points, stance, faults));
  for (const stance of dead) add(stance, ohmsProbes(shows, points, stance, faults));
  return {
    candidates: [...first.map(({ probe }) => ({ probe, stance: isFree(probe) ? undefined : found })), ...widest(extras)],
    complaint: complaint?.probe,
  };
}

function columnOf({ probe, values }: Screened, meter: MeterAccuracy, minutes: MinutesModel): Shown | undefined {
  const outcomes = outcomesOf(
    probe,
    Array.from(values, (value) => Float64Array.of(value)),
    meter,
  );
  if (!outcomes || outcomes.outcomes.length < 2) return undefined;
  return { probe, row: Uint8Array.from(outcomes.of, (of) => of[0] ?? 0), minutes: minutes.probe(probe) };
}

type Extra = { readonly probe: Probe; readonly stance: Stance; readonly told: ReadonlySet<number>; readonly minutes: number };

/** Leaves out what another tells too in no more minutes; of equals the first stays. */
function widest(extras: readonly Extra[]): readonly Candidate[] {
  const byCost = [...extras.entries()].sort(([i, a], [j, b]) => a.minutes - b.minutes || b.told.size - a.told.size || i - j);
  const kept: Extra[] = [];
  for (const [, extra] of byCost) if (!kept.some(({ told }) => [...extra.told].every((pair) => told.has(pair)))) kept.push(extra);
  return kept.map(({ probe, stance }) => ({ probe, stance }));
}

// Of two probes that tell the same, the one that a tech would rather take.
function rank(points: CommonPoints, { probe, values }: Screened): number {
  if (probe.kind === 'look') return 0;
  const { across, input } = probe;
  if (!across) return 1;
  const toUsual = points.usualCommon(across[0]) === across[1];
  const place = toUsual ? 1 : { 'across-a-part': 2, 'to-common': 3, apart: 4 }[points.kind(...across)];
  // The low-impedance input is for ghosts on control wiring; mains are read on the ordinary one.
  const line = values.some((volts) => volts > CLASS_2_VOLTS);
  return place + ((input === 'low') === line ? 0.5 : 0);
}

function complaintAmong(columns: readonly Shown[], { bench }: BenchShows, faults: readonly (readonly string[])[]): Shown | undefined {
  const told = ({ row }: Shown): number =>
    faults.reduce((sum, [fault], i) => sum + (row[i] === row[0] ? 0 : (bench.faults[fault ?? '']?.weight ?? 0)), 0);
  const best = (of: readonly Shown[]): Shown | undefined =>
    of.reduce<Shown | undefined>((most, column) => (told(column) > (most ? told(most) : 0) ? column : most), undefined);
  return best(columns.filter(({ probe }) => probe.kind === 'look')) ?? best(columns);
}
