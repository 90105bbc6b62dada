import { useMemo } from 'react';
import { asFound, type Bench, prepare, type Situation, solve, withJumper } from '../../engine/bench/index.ts';
import { drawnCircuit, type Walk } from '../../engine/walk/index.ts';
import { LadderDrawing, type LadderState, stateOfSolved } from '../../shared/ui/ladder/index.ts';
import { useSession } from '../walk/use-session.ts';
import type { Stance, Suggestion } from './suspects-report.ts';

type Drawn = { readonly bench: Bench; readonly state: LadderState };

/** The circuit with the leads of a suggested reading on their two points, as a sound one would be by then. Nothing for a look. */
export function SuggestionLadder({ suggestion, wirings }: { readonly suggestion: Suggestion; readonly wirings: readonly string[] }) {
  const { walk } = useSession();
  const { across, stance } = suggestion;
  const drawn = useMemo(() => across && drawnFor(walk, across, stance, wirings), [walk, across, stance, wirings]);
  const leads = useMemo(() => across && { red: across[0], black: across[1] }, [across]);
  if (!drawn || !across) return null;
  return (
    <figure className="step-ladder">
      <LadderDrawing bench={drawn.bench} state={drawn.state} leads={leads} focus={across} when="then" />
      <figcaption>
        {drawn.bench.title}, as it should be once it is set up for the reading, not as it is now.
        {wirings.length > 1 && ' Drawn for the likeliest wiring; this house may differ.'}
      </figcaption>
    </figure>
  );
}

/** The likeliest wiring that has both points, with what the reading needs switched, jumpered and lifted. */
function drawnFor(walk: Walk, across: readonly [string, string], stance: Stance | undefined, wirings: readonly string[]): Drawn | undefined {
  const { benches } = walk.edition.compiled.edition;
  for (const name of [...wirings, drawnCircuit(walk)?.name]) {
    const bench = name === undefined ? undefined : benches[name];
    if (!bench) continue;
    const prepared = prepare(bench);
    const hasPoint = (point: string): boolean => prepared.index.nodeNumber.has(point);
    if (!across.every(hasPoint)) continue;
    const { circuit, facts } = walk.snapshot.context;
    const wanted = stance ?? circuit;
    const jumpers = wanted.jumpers.filter((ends) => ends.every(hasPoint));
    const found = asFound(bench);
    const told = Object.entries(facts).flatMap(([fact, { si }]) =>
      si !== undefined && Object.hasOwn(bench.facts, fact) ? [[fact, si] as const] : [],
    );
    const start: Situation = {
      ...found,
      facts: { ...found.facts, ...Object.fromEntries(told) },
      settings: Object.fromEntries(Object.entries(found.settings).map(([setting, state]) => [setting, wanted.settings[setting] ?? state])),
      lifted: wanted.lifted.filter(hasPoint).sort(),
    };
    const solved = solve(
      prepared,
      jumpers.reduce((situation, [a, b]) => withJumper(situation, a, b), start),
    );
    return { bench, state: solved.ok ? stateOfSolved(solved) : {} };
  }
  return undefined;
}
