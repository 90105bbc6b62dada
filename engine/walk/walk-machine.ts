import { assign, setup } from 'xstate';
import { waysOf } from '../tree/index.ts';
import type { CompiledEdition, CompiledStep } from './compiled-edition.ts';
import { freshContext, type WalkContext } from './walk-context.ts';
import type { WalkEvent } from './walk-event.ts';
import * as moves from './walk-moves.ts';
import * as rules from './walk-rules.ts';

// A loop of eventless transitions would hang a phone; two are the most that one event can cause.
const MAX_ITERATIONS = 50;

type Args = { context: WalkContext; event: WalkEvent };

/**
 * One XState machine for a whole edition: `walking.<tree>.<step>` with `cautions`, `work` and `verdict` (findings and
 * handoffs have `told`), then `closing`. Every way on of every tree is a transition written out, so a link into another
 * tree is one too, and the log, the circuit and the path stay one. Events that a state may not take leave it unchanged.
 */
export function walkMachine(edition: CompiledEdition) {
  const stepAt = (context: WalkContext): CompiledStep | undefined => (context.at === undefined ? undefined : edition.steps.get(context.at));

  // One event asks for its verdict three times: may it be taken, which way is it taken, what comes of it. Same question, same answer.
  let asked: { readonly context: WalkContext; readonly event: WalkEvent; readonly answer: ReturnType<typeof rules.verdictOn> } | undefined;
  const verdictOn = (step: CompiledStep, context: WalkContext, event: rules.Answer): ReturnType<typeof rules.verdictOn> => {
    if (asked?.context !== context || asked.event !== event) asked = { context, event, answer: rules.verdictOn(edition, step, context, event) };
    return asked.answer;
  };

  const base = setup({
    types: { context: {} as WalkContext, events: {} as WalkEvent },
    guards: {
      running: ({ context }: Args) => !context.paused,
      paused: ({ context }: Args) => context.paused,
      cautionsAllRead: ({ context }: Args) => rules.unreadCautions(edition, stepAt(context), context) === 0,
      openingRead: ({ context }: Args) => !context.paused && rules.unreadCautions(edition, undefined, context) === 0,
      isCaution: ({ context, event }: Args) => {
        const cautions = stepAt(context)?.step.cautions ?? edition.root.opening.cautions;
        return !context.paused && event.type === 'caution-read' && event.caution < cautions.length;
      },
      hasVerdict: ({ context, event }: Args) => {
        const step = stepAt(context);
        if (context.paused || !step || !(event.type === 'read' || event.type === 'looked' || event.type === 'told')) return false;
        return verdictOn(step, context, event).ok;
      },
      tellsOwnFact: ({ context, event }: Args) => {
        const step = stepAt(context);
        if (context.paused || step?.step.kind !== 'ask' || event.type !== 'told' || event.fact !== step.step.fact) return false;
        return verdictOn(step, context, event).ok;
      },
      tellsFact: ({ context, event }: Args) => {
        if (context.paused || event.type !== 'told') return false;
        const step = stepAt(context);
        const own = step?.step.kind === 'ask' && step.step.fact === event.fact;
        return rules.factReadable(edition, event) && !(own && context.verdict === undefined && rules.unreadCautions(edition, step, context) === 0);
      },
      ownAct: ({ context, event }: Args) => {
        const step = stepAt(context);
        return (
          !context.paused &&
          step !== undefined &&
          event.type === 'did' &&
          event.does === undefined &&
          rules.actRefusal(edition, step, context) === undefined
        );
      },
      setsUp: ({ context, event }: Args, { repairing }: { repairing: boolean }) =>
        !context.paused &&
        event.type === 'did' &&
        event.does !== undefined &&
        rules.setUpAction(rules.stepToSetUp(edition, context), context, event.does, repairing).ok,
      verdictIs: ({ context }: Args, { on }: { on: string }) => !context.paused && context.verdict?.on === on,
      backTo: ({ context, event }: Args, { key }: { key: string }) =>
        !context.paused && event.type === 'stepped-back' && moves.entryKey(context.path[event.to]) === key,
      jumpsTo: ({ context, event }: Args, { key }: { key: string }) =>
        !context.paused && event.type === 'jumped' && `${event.tree}/${event.step}` === key,
      isInPlace: ({ context, event }: Args) => !context.paused && event.type === 'put-back' && rules.itemToPutBack(edition, context, event.item).ok,
      nothingInPlace: ({ context }: Args) => !context.paused && rules.stillInPlace(edition, context).length === 0,
      readyToRecheck: ({ context }: Args) => rules.stillInPlace(edition, context).length === 0 && rules.wantsRecheck(edition, context),
      readyToClose: ({ context }: Args) => rules.stillInPlace(edition, context).length === 0,
      recheckPasses: ({ context, event }: Args) => {
        if (context.paused || event.type !== 'rechecked') return false;
        const result = rules.recheckResult(edition, context, event);
        return result.ok && result.value.passed;
      },
      recheckEndsAll: ({ context, event }: Args) => {
        if (context.paused || event.type !== 'rechecked') return false;
        return rules.recheckResult(edition, context, event).ok && moves.faultsAt(edition, context).length === 0;
      },
      recheckFails: ({ context, event }: Args) => !context.paused && event.type === 'rechecked' && rules.recheckResult(edition, context, event).ok,
    },
    actions: {
      open: assign(({ context, event }) => (event.type === 'opened' ? { ...context, opened: rules.openedBy(event) } : context)),
      enter: assign(({ context }, { key }: { key: string }) => moves.entered(context, key)),
      readCaution: assign(({ context, event }) => (event.type === 'caution-read' ? moves.cautionRead(context, event.caution) : context)),
      judge: assign(({ context, event }) => {
        const step = stepAt(context);
        return step && (event.type === 'read' || event.type === 'looked' || event.type === 'told')
          ? moves.judged(edition, context, event, verdictOn(step, context, event))
          : context;
      }),
      tell: assign(({ context, event }) => (event.type === 'told' ? moves.factTold(edition, context, event) : context)),
      leave: assign(({ context, event }, { on }: { on: string }) =>
        moves.left(edition, context, on, event.type === 'went-on' && event.tooClose === true),
      ),
      act: assign(({ context }) => {
        const step = stepAt(context);
        return step ? moves.acted(edition, step, context) : context;
      }),
      setUp: assign(({ context, event }) =>
        event.type === 'did' && event.does !== undefined ? moves.changed(context, rules.actionsIn(event.does)) : context,
      ),
      stepBack: assign(({ context, event }) => (event.type === 'stepped-back' ? moves.steppedBack(context, event.to) : context)),
      jump: assign(({ context }) => moves.jumped(edition, context)),
      note: assign(({ context, event }) => (event.type === 'noted' ? { ...context, notes: [...context.notes, event.text] } : context)),
      keepPhoto: assign(({ context, event }) =>
        event.type === 'photographed' ? { ...context, photos: [...context.photos, rules.photoOf(event)] } : context,
      ),
      pause: assign(({ context }) => ({ ...context, paused: true })),
      resume: assign(({ context }) => ({ ...context, paused: false })),
      putBack: assign(({ context, event }) => (event.type === 'put-back' ? moves.putBack(edition, context, event.item) : context)),
      repaired: assign(({ context, event }) => (event.type === 'repaired' ? moves.repaired(context, event) : context)),
      recheck: assign(({ context, event }) => (event.type === 'rechecked' ? moves.rechecked(edition, context, event) : context)),
      settle: assign(({ context }) => moves.ended(context, rules.outcomeOf(edition, context))),
    },
  });

  type States = NonNullable<Parameters<typeof base.createMachine>[0]['states']>;
  const keys = [...edition.steps.keys()];
  const steppedBack = keys.map((key) => ({ guard: { type: 'backTo' as const, params: { key } }, target: `#${key}`, actions: 'stepBack' as const }));
  const jumped = keys.map((key) => ({ guard: { type: 'jumpsTo' as const, params: { key } }, target: `#${key}`, actions: 'jump' as const }));
  const setUp = (repairing: boolean) => ({ guard: { type: 'setsUp' as const, params: { repairing } }, actions: 'setUp' as const });

  const stepState = (step: CompiledStep): States[string] => {
    const { kind } = step.step;
    const ends = kind === 'finding' || kind === 'handoff';
    const couldNot =
      step.cannot === undefined
        ? {}
        : { 'could-not': { guard: 'running' as const, target: `#${step.cannot}`, actions: { type: 'leave' as const, params: { on: 'cannot' } } } };
    const answer = { guard: 'hasVerdict' as const, target: 'verdict', actions: 'judge' as const, reenter: true };
    const answers =
      kind === 'reading'
        ? { read: answer }
        : kind === 'look'
          ? { looked: answer }
          : kind === 'ask'
            ? { told: { ...answer, guard: 'tellsOwnFact' as const } }
            : {};
    const done = step.leadsTo.get('done');
    const did = [
      ...(kind === 'act' && done !== undefined ? [{ guard: 'ownAct' as const, target: `#${done}`, actions: 'act' as const }] : []),
      setUp(false),
    ];
    const shell = (work: States): States[string] => ({
      id: step.key,
      entry: { type: 'enter', params: { key: step.key } },
      initial: 'cautions',
      states: {
        cautions: {
          always: { guard: 'cautionsAllRead', target: ends ? 'told' : 'work' },
          on: { 'caution-read': { guard: 'isCaution', actions: 'readCaution' }, ...couldNot },
        },
        ...work,
      },
    });
    if (kind === 'finding') {
      const target = step.step.kind === 'finding' && step.step.faults.length === 0 ? '#closing.put-back' : '#closing.repair';
      return shell({ told: { on: { found: { guard: 'running', target, actions: { type: 'leave', params: { on: 'found' } } } } } });
    }
    if (kind === 'handoff') {
      return shell({
        told: { on: { 'went-on': { guard: 'running', target: '#closing.put-back', actions: { type: 'leave', params: { on: 'handed off' } } } } },
      });
    }
    const wentOn = waysOf(step.step).map((way) => ({
      guard: { type: 'verdictIs' as const, params: { on: way.on } },
      target: `#${step.leadsTo.get(way.on) ?? step.key}`,
      actions: { type: 'leave' as const, params: { on: way.on } },
    }));
    const verdict: States = kind === 'act' ? {} : { verdict: { on: { ...answers, 'went-on': wentOn, ...couldNot } } };
    return shell({ work: { on: { ...answers, did, ...couldNot, 'caution-read': { guard: 'isCaution', actions: 'readCaution' } } }, ...verdict });
  };

  const trees: States = {};
  for (const tree of Object.values(edition.edition.trees)) {
    const states: States = {};
    for (const step of edition.steps.values()) if (step.tree === tree) states[step.step.id] = stepState(step);
    trees[tree.name] = { initial: tree.steps[0]?.id, states } as States[string];
  }

  const aside = {
    noted: { actions: 'note' },
    photographed: { actions: 'keepPhoto' },
    paused: { guard: 'running', actions: 'pause' },
    resumed: { guard: 'paused', actions: 'resume' },
  } as const;

  return base.createMachine({
    id: 'walk',
    context: freshContext(edition),
    initial: 'unopened',
    options: { maxIterations: MAX_ITERATIONS },
    states: {
      unopened: { on: { opened: { target: 'opening', actions: 'open' } } },
      opening: {
        on: {
          'caution-read': { guard: 'isCaution', actions: 'readCaution' },
          told: { guard: 'tellsFact', actions: 'tell' },
          'went-on': { guard: 'openingRead', target: `#${edition.start}` },
          ...aside,
        },
      },
      walking: {
        initial: edition.root.name,
        states: trees,
        on: {
          told: { guard: 'tellsFact', actions: 'tell' },
          'put-back': { guard: 'isInPlace', actions: 'putBack' },
          'stepped-back': steppedBack,
          jumped,
          ...aside,
        },
      },
      closing: {
        id: 'closing',
        initial: 'repair',
        on: {
          'put-back': { guard: 'isInPlace', actions: 'putBack' },
          ...aside,
        },
        states: {
          repair: { on: { repaired: { guard: 'running', target: 'put-back', actions: 'repaired' }, did: setUp(true), 'stepped-back': steppedBack } },
          'put-back': {
            on: { did: setUp(true) },
            always: [
              { guard: 'readyToRecheck', target: 'recheck' },
              { guard: 'readyToClose', target: 'closing', actions: 'settle' },
            ],
          },
          recheck: {
            on: {
              rechecked: [
                { guard: 'recheckPasses', target: 'closing', actions: ['recheck', 'settle'] },
                { guard: 'recheckEndsAll', target: 'closing', actions: ['recheck', 'settle'] },
                { guard: 'recheckFails', target: `#${edition.start}`, actions: 'recheck' },
              ],
              did: setUp(false),
            },
          },
          closing: { on: { closed: { guard: 'nothingInPlace', target: '#walk.closed' } } },
        },
      },
      closed: { type: 'final' },
    },
  });
}

export type WalkMachine = ReturnType<typeof walkMachine>;
