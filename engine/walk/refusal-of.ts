import type { CompiledEdition } from './compiled-edition.ts';
import type { Refusal } from './refusal.ts';
import { readFact } from './site-facts.ts';
import type { WalkContext } from './walk-context.ts';
import type { WalkEvent } from './walk-event.ts';
import type { WalkPosition } from './walk-position.ts';
import * as rules from './walk-rules.ts';

const ANY_TIME: readonly WalkEvent['type'][] = ['told', 'put-back', 'stepped-back', 'jumped', 'noted', 'photographed', 'paused'];

/** The events that a position takes, for saying what can be done instead. */
export function expectedAt(position: WalkPosition, paused: boolean): readonly WalkEvent['type'][] {
  if (paused) return ['resumed', 'noted', 'photographed'];
  const { phase, step } = position;
  switch (phase) {
    case 'unopened':
      return ['opened'];
    case 'opening':
      return ['caution-read', 'told', 'went-on'];
    case 'cautions':
      return ['caution-read', ...(step?.cannot === undefined ? [] : (['could-not'] as const))];
    case 'work':
    case 'finding':
    case 'handoff':
      return step ? rules.expectedOn(step) : [];
    case 'verdict':
      return ['went-on', ...(step ? rules.expectedOn(step) : [])];
    case 'repair':
      return ['repaired', 'did', 'stepped-back'];
    case 'put-back':
      return ['put-back', 'did'];
    case 'recheck':
      return ['rechecked'];
    case 'closing':
      return ['closed'];
    case 'closed':
      return [];
  }
}

/**
 * Why a walk's machine did not take an event. Called after the machine has refused, to say why: it never decides. The
 * order is the order in which a tech would want to know.
 */
export function refusalOf(edition: CompiledEdition, position: WalkPosition, context: WalkContext, event: WalkEvent): Refusal {
  const { phase, step } = position;
  if (phase === 'unopened') return { code: 'not-opened' };
  if (phase === 'closed') return { code: 'closed' };
  if (context.paused) return { code: 'paused' };
  const notNow: Refusal = { code: 'not-now', event: event.type, phase, expects: expectedAt(position, false) };
  const expected = expectedAt(position, false).includes(event.type) || ANY_TIME.includes(event.type);
  const unread =
    phase === 'opening' ? rules.unreadCautions(edition, undefined, context) : phase === 'cautions' ? rules.unreadCautions(edition, step, context) : 0;
  if (unread > 0 && !ANY_TIME.includes(event.type) && event.type !== 'caution-read') return { code: 'cautions-first', left: unread };
  if (!expected && event.type !== 'did') return notNow;
  switch (event.type) {
    case 'read':
    case 'looked': {
      const verdict = step && rules.verdictOn(edition, step, context, event);
      return verdict && !verdict.ok ? verdict.problem : notNow;
    }
    case 'told': {
      const fact = readFact(edition.facts, event.fact, event.typed, 'told');
      if (!fact.ok) return fact.problem;
      const verdict = step?.step.kind === 'ask' && step.step.fact === event.fact ? rules.verdictOn(edition, step, context, event) : undefined;
      return verdict && !verdict.ok ? verdict.problem : notNow;
    }
    case 'did': {
      if (event.does !== undefined) {
        const action = rules.setUpAction(rules.stepToSetUp(edition, context), context, event.does, phase === 'repair' || phase === 'put-back');
        return action.ok ? notNow : action.problem;
      }
      return (step && phase === 'work' ? rules.actRefusal(edition, step, context) : undefined) ?? notNow;
    }
    case 'put-back': {
      const item = rules.itemToPutBack(edition, context, event.item);
      return item.ok ? notNow : item.problem;
    }
    case 'jumped':
      return edition.steps.has(`${event.tree}/${event.step}`) ? notNow : { code: 'unknown-step', step: `${event.tree}/${event.step}` };
    case 'stepped-back':
      return context.path[event.to] ? notNow : { code: 'unknown-step', step: String(event.to) };
    case 'rechecked': {
      const result = rules.recheckResult(edition, context, event);
      return result.ok ? notNow : result.problem;
    }
    case 'closed':
      return { code: 'still-in-place', items: rules.stillInPlace(edition, context) };
    default:
      return notNow;
  }
}
