import type { FactPoint } from '../../formula/index.ts';
import {
  afterWay,
  beginWalk,
  type CircuitState,
  type CompiledEdition,
  type CompiledStep,
  stepKey,
  takeEvent,
  untouched,
  type Walk,
  type WalkableEdition,
  type WalkLine,
  walkPosition,
} from '../../walk/index.ts';
import { type Probe, probeOf } from '../observe/probe.ts';
import type { Evidence } from './evidence.ts';

export type WalkContext = Walk['snapshot']['context'];
type Entry = WalkContext['path'][number];

/** How the circuit stood at each entry of a walk's path, and what had been repaired by then. */
export type Trail = readonly { readonly circuit: CircuitState; readonly repaired: readonly string[] }[];

/** The trail after one event of a walk; begin with an empty one and give every event's walk before and after it. */
export function trailAfter(trail: Trail, before: WalkContext, after: WalkContext): Trail {
  if (after.path.length <= before.path.length) return trail.slice(0, after.path.length);
  const here = { circuit: before.circuit, repaired: before.excluded };
  return [...trail, ...after.path.slice(before.path.length).map(() => here)];
}

/** A log taken again, as far as the walk takes it: where it stands, and its trail. */
export function trailOfLog(edition: WalkableEdition, id: string, lines: readonly WalkLine[]): { readonly walk: Walk; readonly trail: Trail } {
  let walk = beginWalk(edition, id);
  let trail: Trail = [];
  for (const { event, time, mono } of lines) {
    const taken = takeEvent(walk, event, { time, mono });
    if (!taken.ok) break;
    trail = trailAfter(trail, walk.snapshot.context, taken.value.walk.snapshot.context);
    walk = taken.value.walk;
  }
  return { walk, trail };
}

/**
 * The trail as the path alone tells it: acts, settings that steps held, and everything put back after a finding. What was put back by hand on
 * the way, or done on a part of the path that was stepped back from, is not in the path; where the events are at hand, `trailAfter` knows it.
 */
export function trailOfPath(edition: CompiledEdition, { path, rechecks }: WalkContext): Trail {
  let circuit = untouched(edition.asFound);
  let repaired: readonly string[] = [];
  let finding = 0;
  return path.map((entry) => {
    const step = edition.steps.get(stepKey(entry.tree, entry.step));
    if (step) circuit = holding(circuit, step);
    const here = { circuit, repaired };
    if (step && entry.on !== undefined) circuit = afterWay(step, circuit, entry.on);
    if (step?.step.kind === 'finding' && entry.on === 'found') {
      if (rechecks[finding]?.passed === false) repaired = [...repaired, ...step.step.faults];
      finding += 1;
      circuit = untouched(edition.asFound);
    }
    return here;
  });
}

// A reading is refused while what its step holds does not hold.
const holding = (circuit: CircuitState, { step }: CompiledStep): CircuitState => ({
  ...circuit,
  settings: { ...circuit.settings, ...Object.fromEntries(step.while.map(({ setting, state }) => [setting, state])) },
});

/** Everything that a walk has found out so far, in order: readings, looks, the verdict that is on the screen, and rechecks that failed. */
export function evidenceOf(walk: Walk, trail: Trail = trailOfPath(walk.edition.compiled, walk.snapshot.context)): readonly Evidence[] {
  const edition = walk.edition.compiled;
  const { context } = walk.snapshot;
  const found: Evidence[] = [];
  let finding = 0;
  for (const [i, entry] of context.path.entries()) {
    const step = edition.steps.get(stepKey(entry.tree, entry.step));
    const here = trail[i];
    if (!step || !here) continue;
    const evidence = evidenceAt(step, entry, here.circuit, here.repaired);
    if (evidence) found.push(evidence);
    if (step.step.kind !== 'finding' || entry.on !== 'found') continue;
    const recheck = recheckEvidence(edition, context, finding, [...here.repaired, ...step.step.faults]);
    if (recheck) found.push(recheck);
    finding += 1;
  }
  // Stepping back over a finding takes it off the path; that its repair did not help is known all the same.
  for (; finding < context.rechecks.length; finding += 1) {
    const recheck = recheckEvidence(edition, context, finding, context.excluded);
    if (recheck) found.push(recheck);
  }
  const { phase, step: open } = walkPosition(edition, walk.snapshot.value, context);
  const pending = phase === 'verdict' && open && context.verdict && evidenceAt(open, context.verdict, context.circuit, context.excluded);
  return pending ? [...found, pending] : found;
}

/** What is known of the site by now, SI. */
export const knownFacts = ({ facts }: WalkContext): FactPoint =>
  Object.fromEntries(Object.entries(facts).flatMap(([name, { si }]) => (si === undefined ? [] : [[name, si]])));

type Shown = Pick<Entry, 'on' | 'typed' | 'judged'>;

function evidenceAt(step: CompiledStep, shown: Shown, circuit: CircuitState, repaired: readonly string[]): Evidence | undefined {
  if (step.step.kind !== 'reading' && step.step.kind !== 'look') return undefined;
  const probe = probeOf(step.step);
  const value = probe && foundBy(probe, step, shown);
  if (!probe || !value) return undefined;
  const typed = shown.typed ?? shown.on;
  return { probe, circuit, ...value, repaired, tree: step.tree.name, step: step.step.id, ...(typed !== undefined && { typed }) };
}

/** The first label of a look is the sign seen; the others are that it is not. */
function foundBy(probe: Probe, step: CompiledStep, { on, judged }: Shown): Pick<Evidence, 'found' | 'halfWidth'> | undefined {
  if (probe.kind === 'look') {
    const place = [...step.leadsTo.keys()].indexOf(on ?? '');
    return place < 0 ? undefined : { found: place === 0 ? 1 : 0, halfWidth: 0 };
  }
  if (!judged) return undefined;
  return { found: judged.si === 'open' ? Number.POSITIVE_INFINITY : judged.si, halfWidth: judged.halfWidth };
}

function recheckEvidence(edition: CompiledEdition, { rechecks }: WalkContext, which: number, repaired: readonly string[]): Evidence | undefined {
  const recheck = rechecks[which];
  const step = edition.recheck && edition.steps.get(edition.recheck.key);
  return recheck && step && evidenceAt(step, recheck, holding(untouched(edition.asFound), step), [...new Set(repaired)]);
}
