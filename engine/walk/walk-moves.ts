import type { Result } from '../result.ts';
import type { Action } from '../tree/index.ts';
import { afterWay } from './circuit-moves.ts';
import { afterAction, afterPuttingBack, type CircuitState } from './circuit-state.ts';
import { type CompiledEdition, type CompiledStep, stepKey } from './compiled-edition.ts';
import { judge } from './judge.ts';
import type { Refusal } from './refusal.ts';
import { factValue, type KnownFacts, readFact } from './site-facts.ts';
import type { PendingVerdict, WalkContext } from './walk-context.ts';
import type { WalkEvent } from './walk-event.ts';
import { type Answer, itemToPutBack, recheckResult } from './walk-rules.ts';
import type { PathEntry, WalkOutcome } from './walk-view.ts';

type EventOf<T extends WalkEvent['type']> = Extract<WalkEvent, { type: T }>;

// Each move gives the context after one thing that a walk allows; the machine's actions are these and nothing else.

export const entered = (context: WalkContext, key: string): WalkContext => without({ ...context, at: key, cautionsRead: [] }, 'verdict');

export const cautionRead = (context: WalkContext, caution: number): WalkContext =>
  context.cautionsRead.includes(caution) ? context : { ...context, cautionsRead: [...context.cautionsRead, caution] };

export function judged(edition: CompiledEdition, context: WalkContext, event: Answer, verdict: Result<PendingVerdict, Refusal>): WalkContext {
  if (!verdict.ok) return context;
  const told = event.type === 'told' ? toldFacts(edition, context, event) : context.facts;
  return { ...context, facts: told, verdict: verdict.value };
}

function toldFacts(edition: CompiledEdition, context: WalkContext, event: EventOf<'told'>): KnownFacts {
  const fact = readFact(edition.facts, event.fact, event.typed, 'told');
  return fact.ok ? { ...context.facts, [event.fact]: fact.value } : context.facts;
}

/** A fact told from the list: a verdict that stands on the screen is judged again with it. */
export function factTold(edition: CompiledEdition, context: WalkContext, event: EventOf<'told'>): WalkContext {
  const facts = toldFacts(edition, context, event);
  const { verdict } = context;
  const gauge = context.at === undefined ? undefined : edition.steps.get(context.at)?.gauge;
  if (!verdict?.judged || verdict.typed === undefined || !gauge) return { ...context, facts };
  const again = judge(gauge, verdict.typed, (name) => factValue(edition.facts, facts, name));
  return again.ok ? { ...context, facts, verdict: { ...verdict, on: again.value.on, judged: again.value } } : { ...context, facts };
}

/** Closes the open step's entry on the path with the way taken. */
export function left(edition: CompiledEdition, context: WalkContext, on: string, acceptedTooClose = false): WalkContext {
  const step = context.at === undefined ? undefined : edition.steps.get(context.at);
  if (!step) return context;
  const entry = pathEntry(step, context, on, acceptedTooClose);
  const next = { ...context, path: [...context.path, entry], jumped: false };
  return without(learned(step, next, context.verdict), 'verdict');
}

function pathEntry(step: CompiledStep, context: WalkContext, on: string, acceptedTooClose: boolean): PathEntry {
  const verdict = context.verdict;
  return {
    tree: step.tree.name,
    step: step.step.id,
    title: step.step.title,
    kind: step.step.kind,
    on,
    ...(verdict?.typed !== undefined && on === verdict.on && { typed: verdict.typed }),
    ...(verdict?.judged && on === verdict.on && { judged: verdict.judged }),
    ...(acceptedTooClose && { acceptedTooClose }),
    ...(context.jumped && { jumped: true }),
  };
}

/** What an accepted reading teaches beyond its way on: a fact of the site, or that two points are dead. */
function learned(step: CompiledStep, context: WalkContext, verdict: PendingVerdict | undefined): WalkContext {
  if (step.step.kind !== 'reading' || verdict?.judged === undefined || verdict.typed === undefined) return context;
  const { sets } = step.step;
  const { si, on } = verdict.judged;
  const facts =
    sets !== undefined && si !== 'open' ? { ...context.facts, [sets]: { typed: verdict.typed, si, source: 'read' as const } } : context.facts;
  return { ...context, facts, circuit: afterWay(step, context.circuit, on) };
}

export const changed = (context: WalkContext, actions: readonly Action[]): WalkContext => ({
  ...context,
  circuit: actions.reduce<CircuitState>(afterAction, context.circuit),
});

/** An Act step's own act is done; the step is left by its one way. */
export function acted(edition: CompiledEdition, step: CompiledStep, context: WalkContext): WalkContext {
  return left(edition, { ...context, circuit: afterWay(step, context.circuit, 'done') }, 'done');
}

export function putBack(edition: CompiledEdition, context: WalkContext, key: string): WalkContext {
  const item = itemToPutBack(edition, context, key);
  return item.ok ? { ...context, circuit: afterPuttingBack(context.circuit, item.value) } : context;
}

/** Back to an earlier entry: the path is cut there. The circuit stays as the tech made it. */
export const steppedBack = (context: WalkContext, to: number): WalkContext =>
  without({ ...context, path: context.path.slice(0, to), jumped: false }, 'verdict', 'repaired');

export const jumped = (edition: CompiledEdition, context: WalkContext): WalkContext => ({ ...left(edition, context, 'jumped'), jumped: true });

export const repaired = (context: WalkContext, event: EventOf<'repaired'>): WalkContext => ({
  ...context,
  repaired: { done: event.done, ...(event.note !== undefined && { note: event.note }) },
});

export const ended = (context: WalkContext, outcome: WalkOutcome): WalkContext => ({ ...context, outcome });

/** The complaint was tried again; where it came back, what was repaired was not the cause, or not the only one. */
export function rechecked(edition: CompiledEdition, context: WalkContext, event: EventOf<'rechecked'>): WalkContext {
  const result = recheckResult(edition, context, event);
  if (!result.ok) return context;
  const { passed, ...verdict } = result.value;
  const next = { ...context, rechecks: [...context.rechecks, { ...verdict, passed }] };
  return passed ? next : without({ ...next, excluded: [...new Set([...context.excluded, ...faultsAt(edition, context)])] }, 'repaired');
}

/** The faults that the finding the walk stands on names. */
export function faultsAt(edition: CompiledEdition, context: WalkContext): readonly string[] {
  const step = context.at === undefined ? undefined : edition.steps.get(context.at)?.step;
  return step?.kind === 'finding' ? step.faults : [];
}

export const entryKey = (entry: PathEntry | undefined): string | undefined => entry && stepKey(entry.tree, entry.step);

function without<K extends 'verdict' | 'repaired'>(context: WalkContext, ...keys: K[]): WalkContext {
  const copy: Record<string, unknown> = { ...context };
  for (const key of keys) delete copy[key];
  return copy as WalkContext;
}
