import { type Solved, signsOf, voltsAmong } from '../../bench/index.ts';
import type { BenchShows } from '../observe/bench-shows.ts';
import { shownBy } from '../observe/bench-shows.ts';
import { type Probe, probeKey } from '../observe/probe.ts';
import type { CommonPoints } from './common-points.ts';
import type { Stance } from './set-up-plan.ts';
import { circuitOf } from './stances.ts';

/** A probe with what it shows for each set of faults in the usual house; NaN where it has no answer. */
export type Screened = { readonly probe: Probe; readonly values: Float64Array };

/** Volts below this are not there. */
const NO_VOLTS = 0.02;

/**
 * The circuit of a stance for each set of faults, as it is and as if nothing had been on before. Where a fuse that blew earlier makes the two differ, a probe that
 * shows it is no good: a proof of the tree solves every circuit afresh.
 */
type Twice = { readonly solved: Solved | undefined; readonly fresh: Solved | undefined };

const solvedTwice = (shows: BenchShows, stance: Stance, faults: readonly (readonly string[])[]): readonly Twice[] =>
  faults.map((names) => ({ solved: shows.solved(circuitOf(stance), names), fresh: shows.fresh(circuitOf(stance), names) }));

/** A value that does not hang on what went before; NaN where it does. */
export const steadyValue = (one: number, other: number): number =>
  one === other || Math.abs(one - other) <= 0.01 * Math.max(Math.abs(one), Math.abs(other)) + 1e-3 ? one : Number.NaN;

// What a meter's own load changes by more than this, or a tech may be off by with it, is no reading to decide on.
const LOADED = { share: 0.25, volts: 0.5 } as const;

/** AC volts on one input, where the other agrees or shows that there is nothing behind them; NaN where what is read is mostly the meter. */
export function soundVolts(own: number, other: number, input: 'low' | undefined): number {
  if (Math.abs(own - other) <= LOADED.share * Math.max(own, other) + LOADED.volts) return own;
  return input === 'low' && own <= LOADED.volts ? own : Number.NaN;
}

const steadily = ({ solved, fresh }: Twice, shown: (solved: Solved) => number): number => {
  if (!solved || !fresh) return Number.NaN;
  return solved === fresh ? shown(solved) : steadyValue(shown(solved), shown(fresh));
};

const blank = (faults: readonly unknown[]): Float64Array => new Float64Array(faults.length).fill(Number.NaN);

/** Every live probe of a bench in one stance: volts between every two terminals, signs, places, and amps where a conductor can be got at. */
export function liveProbes(shows: BenchShows, points: CommonPoints, stance: Stance, faults: readonly (readonly string[])[]): readonly Screened[] {
  const twice = solvedTwice(shows, stance, faults);
  const others = [...looks(shows), ...places(shows)].map(
    (probe): Screened => ({ probe, values: Float64Array.from(twice, (each) => steadily(each, (solved) => shownBy(solved, probe))) }),
  );
  return [...others, ...volts(points, twice, faults)];
}

const looks = ({ bench }: BenchShows): readonly Probe[] => Object.keys(bench.signs).map((sign) => ({ kind: 'look', sign }));

function places({ prepared }: BenchShows): readonly Probe[] {
  return prepared.index.parts.flatMap(({ name, known: { spec }, leads }): readonly Probe[] => {
    if (spec.kind === 'place') return [{ kind: 'reading', takes: spec.reads, at: name }];
    if (spec.kind === 'flame') return [{ kind: 'reading', takes: 'dc-current', at: name }];
    return leads.length > 0 && (spec.kind === 'coil' || spec.kind === 'load') ? [{ kind: 'reading', takes: 'ac-current', at: name }] : [];
  });
}

function volts(points: CommonPoints, twice: readonly Twice[], faults: readonly unknown[]): readonly Screened[] {
  const { terminals } = points;
  const hasDc = twice.some(({ solved }) => solved?.circuit.hasDc);
  const tables = (line: 'ac' | 'dc') =>
    twice.map(({ solved, fresh }) => {
      const own = solved && voltsAmong(solved, terminals, line);
      return { own, other: fresh === solved ? own : fresh && voltsAmong(fresh, terminals, line) };
    });
  const ac = tables('ac');
  const dc = hasDc ? tables('dc') : [];
  const shown = (of: ReturnType<typeof tables>, input: 'plain' | 'low', cell: number): Float64Array => {
    const values = blank(faults);
    for (const [fault, { own, other }] of of.entries())
      values[fault] = steadyValue(own?.[input][cell] ?? Number.NaN, other?.[input][cell] ?? Number.NaN);
    return values;
  };
  const found: Screened[] = [];
  for (const [i, a] of terminals.entries()) {
    for (let j = i + 1; j < terminals.length; j += 1) {
      if (!points.areOfOneCircuit(a, terminals[j] ?? '')) continue;
      const across = points.leads(a, terminals[j] ?? '');
      const [red, black] = across[0] === a ? [i, j] : [j, i];
      const cell = red * terminals.length + black;
      const low = shown(ac, 'low', cell);
      const plain = shown(ac, 'plain', cell);
      const sound = low.map((value, i) => soundVolts(value, plain[i] ?? Number.NaN, 'low'));
      found.push({ probe: { kind: 'reading', takes: 'ac-voltage', across, input: 'low' }, values: sound });
      found.push({
        probe: { kind: 'reading', takes: 'ac-voltage', across },
        values: plain.map((value, i) => soundVolts(value, low[i] ?? Number.NaN, undefined)),
      });
      if (!hasDc) continue;
      const direct = shown(dc, 'plain', cell);
      if (direct.some((value) => Math.abs(value) > NO_VOLTS)) found.push({ probe: { kind: 'reading', takes: 'dc-voltage', across }, values: direct });
    }
  }
  return found;
}

/** Ohms in a dead stance: with a lead lifted, from it to every terminal of its circuit; else across parts and to the commons. */
export function ohmsProbes(shows: BenchShows, points: CommonPoints, stance: Stance, faults: readonly (readonly string[])[]): readonly Screened[] {
  const twice = solvedTwice(shows, stance, faults);
  const { terminals } = points;
  const [lead] = stance.lifted;
  const pairs =
    lead !== undefined
      ? terminals.filter((terminal) => points.areOfOneCircuit(lead, terminal)).map((terminal) => [lead, terminal] as const)
      : terminals.flatMap((a, i) =>
          terminals
            .slice(i + 1)
            .filter((b) => points.kind(a, b) !== 'apart' && points.areOfOneCircuit(a, b))
            .map((b) => points.leads(a, b)),
        );
  return pairs.map((across): Screened => {
    const probe: Probe = { kind: 'reading', takes: 'resistance', across };
    return { probe, values: Float64Array.from(twice, (each) => steadily(each, (solved) => shownBy(solved, probe))) };
  });
}

/** Looks that show the same however the circuit stands: a cock, a dial, a hose. */
export function stanceFreeLooks(shows: BenchShows, stances: readonly Stance[], faults: readonly (readonly string[])[]): ReadonlySet<string> {
  const free = new Set(Object.keys(shows.bench.signs));
  for (const names of faults) {
    const seen = stances.map((stance) => shows.solved(circuitOf(stance), names)).map((each) => each && signsOf(each));
    for (const sign of free) if (seen.some((signs) => signs?.[sign] !== seen[0]?.[sign])) free.delete(sign);
  }
  return new Set([...free].map((sign) => probeKey({ kind: 'look', sign })));
}
