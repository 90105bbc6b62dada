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

const blank = (faults: readonly unknown[]): Float64Array => new Float64Array(faults.length).fill(Number.NaN);

/** Every live probe of a bench in one stance: volts between every two terminals, signs, places, and amps where a conductor can be got at. */
export function liveProbes(shows: BenchShows, points: CommonPoints, stance: Stance, faults: readonly (readonly string[])[]): readonly Screened[] {
  const circuit = circuitOf(stance);
  const solved = faults.map((names) => shows.solved(circuit, names));
  const others = [...looks(shows), ...places(shows)].map(
    (probe): Screened => ({ probe, values: Float64Array.from(solved, (each) => (each ? shownBy(each, probe) : Number.NaN)) }),
  );
  return [...others, ...volts(points, solved, faults)];
}

const looks = ({ bench }: BenchShows): readonly Probe[] => Object.keys(bench.signs).map((sign) => ({ kind: 'look', sign }));

function places({ prepared }: BenchShows): readonly Probe[] {
  return prepared.index.parts.flatMap(({ name, known: { spec }, leads }): readonly Probe[] => {
    if (spec.kind === 'place') return [{ kind: 'reading', takes: spec.reads, at: name }];
    if (spec.kind === 'flame') return [{ kind: 'reading', takes: 'dc-current', at: name }];
    return leads.length > 0 && (spec.kind === 'coil' || spec.kind === 'load') ? [{ kind: 'reading', takes: 'ac-current', at: name }] : [];
  });
}

function volts(points: CommonPoints, solved: readonly (Solved | undefined)[], faults: readonly unknown[]): readonly Screened[] {
  const { terminals } = points;
  const hasDc = solved.some((each) => each?.circuit.hasDc);
  const ac = solved.map((each) => each && voltsAmong(each, terminals));
  const dc = hasDc ? solved.map((each) => each && voltsAmong(each, terminals, 'dc')) : [];
  const found: Screened[] = [];
  for (const [i, a] of terminals.entries()) {
    for (let j = i + 1; j < terminals.length; j += 1) {
      if (!points.areOfOneCircuit(a, terminals[j] ?? '')) continue;
      const across = points.leads(a, terminals[j] ?? '');
      const [red, black] = across[0] === a ? [i, j] : [j, i];
      const cell = red * terminals.length + black;
      const low = blank(faults);
      const plain = blank(faults);
      for (const [fault, table] of ac.entries()) {
        low[fault] = table?.low[cell] ?? Number.NaN;
        plain[fault] = table?.plain[cell] ?? Number.NaN;
      }
      found.push({ probe: { kind: 'reading', takes: 'ac-voltage', across, input: 'low' }, values: low });
      found.push({ probe: { kind: 'reading', takes: 'ac-voltage', across }, values: plain });
      if (!hasDc) continue;
      const direct = blank(faults);
      for (const [fault, table] of dc.entries()) direct[fault] = table?.plain[cell] ?? Number.NaN;
      if (direct.some((value) => Math.abs(value) > NO_VOLTS)) found.push({ probe: { kind: 'reading', takes: 'dc-voltage', across }, values: direct });
    }
  }
  return found;
}

/** Ohms in a dead stance: with a lead lifted, from it to every terminal; else across parts and to the commons. */
export function ohmsProbes(shows: BenchShows, points: CommonPoints, stance: Stance, faults: readonly (readonly string[])[]): readonly Screened[] {
  const circuit = circuitOf(stance);
  const solved = faults.map((names) => shows.solved(circuit, names));
  const { terminals } = points;
  const [lead] = stance.lifted;
  const pairs =
    lead !== undefined
      ? terminals.map((terminal) => [lead, terminal] as const)
      : terminals.flatMap((a, i) =>
          terminals
            .slice(i + 1)
            .filter((b) => points.kind(a, b) !== 'apart' && points.areOfOneCircuit(a, b))
            .map((b) => points.leads(a, b)),
        );
  return pairs.map((across): Screened => {
    const probe: Probe = { kind: 'reading', takes: 'resistance', across };
    return { probe, values: Float64Array.from(solved, (each) => (each ? shownBy(each, probe) : Number.NaN)) };
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
