import { failure, type Result, success } from '../result.ts';
import { type Action, isChoice, readAction, type SettingHold, type Tree } from '../tree/index.ts';
import { afterPuttingBack, type CircuitState, putBackItems, puttingBack } from './circuit-state.ts';
import { type CompiledEdition, type CompiledStep, mustBeRead } from './compiled-edition.ts';
import { judge } from './judge.ts';
import type { Refusal } from './refusal.ts';
import type { SafetyConcern } from './safety-model.ts';
import { factValue, type KnownFacts, readFact } from './site-facts.ts';
import type { PendingVerdict, WalkContext } from './walk-context.ts';
import type { WalkEvent } from './walk-event.ts';
import type { PutBackItem, WalkOutcome } from './walk-view.ts';

type EventOf<T extends WalkEvent['type']> = Extract<WalkEvent, { type: T }>;

const factOf = (edition: CompiledEdition, facts: KnownFacts) => (name: string) => factValue(edition.facts, facts, name);

/** Settings that a step wants and that do not hold. */
export const unmetHolds = (step: CompiledStep, context: WalkContext): readonly SettingHold[] =>
  step.step.while.filter(({ setting, state }) => context.circuit.settings[setting] !== state);

/** The benches that this site could be: the one told (or usual) where the tree asks which, else all that the step's tree names. */
export function benchesOf(edition: CompiledEdition, tree: Tree, facts: KnownFacts): readonly string[] {
  const spec = edition.wiring === undefined ? undefined : edition.facts.get(edition.wiring)?.spec;
  if (edition.wiring === undefined || !spec || !isChoice(spec)) return tree.benches;
  const told = facts[edition.wiring]?.typed ?? spec.usual;
  return tree.benches.includes(told) ? [told] : tree.benches;
}

/** What the circuit forbids on this step now, on any bench that the site could be. */
function dangerRefusal(edition: CompiledEdition, step: CompiledStep, context: WalkContext): Refusal | undefined {
  for (const bench of benchesOf(edition, step.tree, context.facts)) {
    const [concern] = edition.safety(bench)?.concerns(step, context.circuit) ?? [];
    if (concern) return { code: 'unsafe', concern };
  }
  return undefined;
}

function holdsRefusal(step: CompiledStep, context: WalkContext): Refusal | undefined {
  const unmet = unmetHolds(step, context);
  return unmet.length > 0 ? { code: 'setting-not-held', holds: unmet } : undefined;
}

/** What can answer a step. */
export type Answer = EventOf<'read'> | EventOf<'looked'> | EventOf<'told'>;

/** What a reading, look or told fact means on a step; or why it cannot be taken. */
export function verdictOn(edition: CompiledEdition, step: CompiledStep, context: WalkContext, event: Answer): Result<PendingVerdict, Refusal> {
  const stopped = holdsRefusal(step, context) ?? dangerRefusal(edition, step, context);
  if (stopped) return failure(stopped);
  switch (event.type) {
    case 'looked': {
      const saw = event.saw.trim();
      return step.leadsTo.has(saw) ? success({ on: saw }) : failure({ code: 'no-such-way', got: event.saw, known: [...step.leadsTo.keys()] });
    }
    case 'read': {
      if (!step.gauge) return failure({ code: 'no-such-way', got: event.typed, known: [...step.leadsTo.keys()] });
      const judged = judge(step.gauge, event.typed, factOf(edition, context.facts));
      return judged.ok ? success({ on: judged.value.on, typed: event.typed, judged: judged.value }) : judged;
    }
    case 'told':
      return toldVerdict(edition, step, context, event);
  }
}

function toldVerdict(edition: CompiledEdition, step: CompiledStep, context: WalkContext, event: EventOf<'told'>): Result<PendingVerdict, Refusal> {
  const known = readFact(edition.facts, event.fact, event.typed, 'told');
  if (!known.ok) return known;
  if (step.leadsTo.has('known')) return success({ on: 'known', typed: event.typed });
  if (step.gauge) {
    const judged = judge(step.gauge, event.typed, factOf(edition, { ...context.facts, [event.fact]: known.value }));
    return judged.ok ? success({ on: judged.value.on, typed: event.typed, judged: judged.value }) : judged;
  }
  const on = known.value.typed;
  return step.leadsTo.has(on) ? success({ on, typed: on }) : failure({ code: 'no-such-way', got: on, known: [...step.leadsTo.keys()] });
}

/** Whether every caution that must be read has been, on the open step or in the opening. */
export function unreadCautions(edition: CompiledEdition, step: CompiledStep | undefined, context: WalkContext): number {
  const must = step ? step.mustRead : edition.root.opening.cautions.flatMap((c, i) => (mustBeRead(c.signal) ? [i] : []));
  return must.filter((i) => !context.cautionsRead.includes(i)).length;
}

/** One change outside a step's own act: only what puts an unmet setting right, or power for a repair. */
export function setUpAction(step: CompiledStep | undefined, context: WalkContext, text: string, repairing: boolean): Result<Action, Refusal> {
  const action = readAction(text);
  if (!action) return failure({ code: 'not-an-act', text });
  if (action.do !== 'turn') return failure({ code: 'not-an-act', text });
  if (repairing && Object.hasOwn(context.circuit.settings, action.setting)) return success(action);
  const unmet = step ? unmetHolds(step, context) : [];
  if (unmet.some((hold) => hold.setting === action.setting && hold.state === action.state)) return success(action);
  return failure({ code: 'not-an-act', text });
}

/** Why an Act step's own act cannot be done now. */
export const actRefusal = (edition: CompiledEdition, step: CompiledStep, context: WalkContext): Refusal | undefined =>
  holdsRefusal(step, context) ?? dangerRefusal(edition, step, context);

export const stillInPlace = (edition: CompiledEdition, context: WalkContext): readonly PutBackItem[] =>
  putBackItems(context.circuit, edition.asFound);

/** One thing on the put-back list, if it can be put back safely now. */
export function itemToPutBack(edition: CompiledEdition, context: WalkContext, key: string): Result<PutBackItem, Refusal> {
  const items = stillInPlace(edition, context);
  const item = items.find((i) => i.key === key);
  if (!item) return failure({ code: 'not-in-place', item: key });
  const concern = item.kind === 'setting' ? strands(edition, context, item, items) : liveTouch(edition, context, item, context.circuit);
  return concern ? failure({ code: 'unsafe', concern }) : success(item);
}

/** What putting an item back would touch live, with the circuit as it stands. */
function liveTouch(edition: CompiledEdition, context: WalkContext, item: PutBackItem, circuit: CircuitState): SafetyConcern | undefined {
  const tree = (context.at === undefined ? undefined : edition.steps.get(context.at)?.tree) ?? edition.root;
  for (const bench of benchesOf(edition, tree, context.facts)) {
    const concern = edition
      .safety(bench)
      ?.actConcerns([puttingBack(item)], circuit)
      .find(({ code }) => code === 'touched-while-live');
    if (concern) return concern;
  }
  return undefined;
}

/** A lead or jumper that could be put back now, and not once this setting is: it comes first. */
function strands(edition: CompiledEdition, context: WalkContext, setting: PutBackItem, items: readonly PutBackItem[]): SafetyConcern | undefined {
  const after = afterPuttingBack(context.circuit, setting);
  for (const other of items) {
    if (other.kind === 'setting' || liveTouch(edition, context, other, context.circuit)) continue;
    const concern = liveTouch(edition, context, other, after);
    if (concern) return concern;
  }
  return undefined;
}

/** What trying the complaint again showed. */
export function recheckResult(
  edition: CompiledEdition,
  context: WalkContext,
  event: EventOf<'rechecked'>,
): Result<PendingVerdict & { passed: boolean }, Refusal> {
  const { recheck } = edition;
  const step = recheck && edition.steps.get(recheck.key);
  if (!recheck || !step) return failure({ code: 'no-recheck' });
  const { saw, typed } = event;
  const verdict =
    typed !== undefined
      ? verdictOn(edition, step, context, { type: 'read', typed })
      : verdictOn(edition, step, context, { type: 'looked', saw: saw ?? '' });
  return verdict.ok ? success({ ...verdict.value, passed: verdict.value.on === recheck.passes }) : verdict;
}

/** Every event name that a step's work can take. */
export function expectedOn(step: CompiledStep): readonly WalkEvent['type'][] {
  const cannot: WalkEvent['type'][] = step.cannot === undefined ? [] : ['could-not'];
  switch (step.step.kind) {
    case 'reading':
      return ['read', ...cannot];
    case 'look':
      return ['looked', ...cannot];
    case 'act':
      return ['did', ...cannot];
    case 'ask':
      return ['told', ...cannot];
    case 'finding':
      return ['found', 'stepped-back'];
    case 'handoff':
      return ['went-on', 'stepped-back'];
  }
}

/** The step whose settings may be put right now: the open one, or the recheck's once something was repaired. */
export function stepToSetUp(edition: CompiledEdition, context: WalkContext): CompiledStep | undefined {
  const step = context.at === undefined ? undefined : edition.steps.get(context.at);
  const inRitual = step?.step.kind === 'finding' && edition.recheck;
  return inRitual && edition.recheck ? edition.steps.get(edition.recheck.key) : step;
}

export const actionsIn = (does: string): readonly Action[] => {
  const action = readAction(does);
  return action ? [action] : [];
};

export const factReadable = (edition: CompiledEdition, event: EventOf<'told'>): boolean =>
  readFact(edition.facts, event.fact, event.typed, 'told').ok;

export const openedBy = ({ type: _, ...opened }: EventOf<'opened'>): WalkContext['opened'] => defined(opened);

export const photoOf = ({ type: _, ...photo }: EventOf<'photographed'>): WalkContext['photos'][number] => defined(photo);

// Zod gives absent keys as absent; this only tells the compiler so.
function defined<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as { [K in keyof T]: Exclude<T[K], undefined> };
}

/** Whether the complaint is to be tried again before closing: after a repair, and when nothing wrong was found. */
export function wantsRecheck(edition: CompiledEdition, context: WalkContext): boolean {
  const step = context.at === undefined ? undefined : edition.steps.get(context.at)?.step;
  return edition.recheck !== undefined && step?.kind === 'finding' && context.repaired?.done !== false;
}

/** How a walk that is about to close came out. */
export function outcomeOf(edition: CompiledEdition, context: WalkContext): WalkOutcome {
  const step = context.at === undefined ? undefined : edition.steps.get(context.at)?.step;
  if (step?.kind !== 'finding') return 'handed-off';
  if (context.repaired?.done === false) return 'not-repaired';
  const passed = context.rechecks.at(-1)?.passed === true;
  if (step.faults.length === 0) return passed ? 'nothing-wrong' : 'not-fixed';
  return passed ? 'fixed' : 'not-fixed';
}
