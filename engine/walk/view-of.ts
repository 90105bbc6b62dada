import { quantityKind } from '../quantity/index.ts';
import { type Caution, waysOf } from '../tree/index.ts';
import { type CompiledEdition, type CompiledStep, mustBeRead } from './compiled-edition.ts';
import { computedNumber } from './computed-numbers.ts';
import { type GaugeBand, gaugeBands } from './judge.ts';
import { factStates, factValue } from './site-facts.ts';
import type { Walk } from './walk.ts';
import type { PendingVerdict, WalkContext } from './walk-context.ts';
import { walkPosition } from './walk-position.ts';
import { stillInPlace, unmetHolds } from './walk-rules.ts';
import type { PathEntry, Scale, ScaleBand, Verdict, WalkPhase, WalkView } from './walk-view.ts';

const RITUAL: ReadonlySet<WalkPhase> = new Set(['repair', 'put-back', 'recheck', 'closing', 'closed']);

/** What a screen shows of a walk. A walk that was never opened shows its opening. */
export function viewOf(walk: Walk): WalkView {
  const edition = walk.edition.compiled;
  const { context } = walk.snapshot;
  const position = walkPosition(edition, walk.snapshot.value, context);
  const phase = position.phase === 'unopened' ? 'opening' : position.phase;
  const { step } = position;
  const open = context.at === undefined ? undefined : edition.steps.get(context.at);
  const { outcome, repaired } = context;
  return {
    phase,
    paused: context.paused,
    tree: step?.tree ?? edition.root,
    openingCautions: edition.root.opening.cautions,
    cautions: cautionsNow(edition, phase, step, context),
    unmet: step && (phase === 'work' || phase === 'verdict' || phase === 'recheck') ? unmetHolds(step, context) : [],
    settings: context.circuit.settings,
    path: pathOf(phase, open, context),
    putBack: stillInPlace(edition, context),
    facts: factStates(edition.facts, context.facts),
    computed: (step?.computed ?? []).map((computed) => computedNumber(computed, edition.facts, context.facts)),
    excluded: context.excluded,
    rechecks: context.rechecks.map(({ on, passed, typed }) => ({ on, passed, ...(typed !== undefined && { typed }) })),
    notes: context.notes,
    photos: context.photos,
    canStepBack: context.path.length > 0 && !context.paused && !['opening', 'put-back', 'recheck', 'closing', 'closed'].includes(phase),
    ...(step && { step: step.step }),
    ...scaleOf(edition, step, context),
    ...(phase === 'verdict' && step && context.verdict && { verdict: shownVerdict(edition, step, context.verdict) }),
    ...findingOf(open, phase),
    ...(repaired && { repaired }),
    ...(outcome && { outcome }),
  };
}

function cautionsNow(edition: CompiledEdition, phase: WalkPhase, step: CompiledStep | undefined, context: WalkContext): WalkView['cautions'] {
  const show = (cautions: readonly Caution[], readNow: boolean) =>
    cautions.map((caution, i) => ({ caution, mustRead: mustBeRead(caution.signal), read: readNow || context.cautionsRead.includes(i) }));
  if (phase === 'opening') return show(edition.root.opening.cautions, false);
  // The ritual shows the cautions of the finding or the recheck step; they were read on the way in, or are told again.
  return step ? show(step.step.cautions, RITUAL.has(phase)) : [];
}

function pathOf(phase: WalkPhase, open: CompiledStep | undefined, context: WalkContext): readonly PathEntry[] {
  if (!open || RITUAL.has(phase)) return context.path;
  const entry: PathEntry = {
    tree: open.tree.name,
    step: open.step.id,
    title: open.step.title,
    kind: open.step.kind,
    ...(context.jumped && { jumped: true }),
  };
  return [...context.path, entry];
}

/** The title of the step that a way leads to. */
export function titleOf(edition: CompiledEdition, step: CompiledStep, on: string): string {
  const key = step.leadsTo.get(on);
  return (key === undefined ? undefined : edition.steps.get(key)?.step.title) ?? '';
}

function scaleOf(edition: CompiledEdition, step: CompiledStep | undefined, context: WalkContext): { readonly scale?: Scale } {
  if (!step?.gauge) return {};
  const bands = gaugeBands(step.gauge, (name) => factValue(edition.facts, context.facts, name));
  if (!bands.ok) return {};
  const ordered = [...bands.value].sort(byPlace);
  const scaleBands = ordered.map(({ on, low, high }): ScaleBand => ({ on, low, high, leadsTo: titleOf(edition, step, on) }));
  const unit = step.gauge.step.unit ?? quantityKind(step.gauge.step.takes).unit;
  const reading = context.verdict?.judged;
  return { scale: { unit, bands: scaleBands, ...(reading && { reading }) } };
}

// Bands with numbers by value, then OL, then the rest.
function byPlace(a: GaugeBand, b: GaugeBand): number {
  const rank = ({ band }: GaugeBand): number => (band.kind === 'open' ? 1 : band.kind === 'otherwise' ? 2 : 0);
  return rank(a) - rank(b) || (a.low ?? Number.NEGATIVE_INFINITY) - (b.low ?? Number.NEGATIVE_INFINITY) || 0;
}

function shownVerdict(edition: CompiledEdition, step: CompiledStep, { on, judged }: PendingVerdict): Verdict {
  return { on, leadsTo: titleOf(edition, step, on), tooClose: (judged?.reaches.length ?? 0) > 0, ...(judged && { judged }) };
}

function findingOf(open: CompiledStep | undefined, phase: WalkPhase): Pick<WalkView, 'finding'> {
  const step = open?.step;
  if (step?.kind !== 'finding' || phase === 'cautions') return {};
  return { finding: { title: step.title, faults: step.faults, prose: step.prose, repair: step.repair } };
}

/** The labels, choices or `done` that a step can be answered with, and where each leads. */
export function answersOf(walk: Walk): readonly { readonly on: string; readonly leadsTo: string }[] {
  const edition = walk.edition.compiled;
  const { step } = walkPosition(edition, walk.snapshot.value, walk.snapshot.context);
  return step ? waysOf(step.step).map(({ on }) => ({ on, leadsTo: titleOf(edition, step, on) })) : [];
}
