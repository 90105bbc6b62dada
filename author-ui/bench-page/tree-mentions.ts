import type { Action, Step, Tree, Way } from '../../engine/tree/index.ts';
import type { Rename } from './entry-mentions.ts';

/** A tree in which a name of its benches is another; the same value where the tree does not mention it. */
export function renamedInTree(tree: Tree, rename: Rename): Tree {
  const { section, from, to } = rename;
  const steps = tree.steps.map((step) => same(step, renamedInStep(step, rename)));
  const keyed = <T>(of: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(Object.entries(of).map(([name, value]) => [name === from ? to : name, value]));
  const recheckStep = tree.steps.find(({ id }) => id === tree.recheck?.step);
  const passes = tree.recheck && recheckStep ? onOf(recheckStep, tree.recheck.passes, rename) : undefined;
  return same(tree, {
    ...tree,
    steps,
    ...(section === 'facts' && { facts: keyed(tree.facts) }),
    ...(section === 'settings' && { settings: keyed(tree.settings) }),
    ...(tree.recheck && passes !== undefined && { recheck: { ...tree.recheck, passes } }),
  });
}

function renamedInStep(step: Step, rename: Rename): Step {
  const { section, from, to } = rename;
  const one = (of: Rename['section'], name: string): string => (of === section && name === from ? to : name);
  const held = { while: step.while.map(({ setting, state }) => ({ setting: one('settings', setting), state })) };
  const ways = 'ways' in step ? step.ways.map((way): Way => ({ ...way, on: onOf(step, way.on, rename) })) : [];
  switch (step.kind) {
    case 'reading':
      return {
        ...step,
        ...held,
        ways,
        ...(step.across && { across: [one('terminals', step.across[0]), one('terminals', step.across[1])] }),
        ...(step.at !== undefined && { at: one('parts', step.at) }),
        ...(step.sets !== undefined && { sets: one('facts', step.sets) }),
      };
    case 'look':
      return { ...step, ...held, ways, ...(step.sign !== undefined && { sign: one('signs', step.sign) }) };
    case 'act':
      return { ...step, ...held, ways, does: step.does.map((action) => renamedAction(action, one)) };
    case 'ask':
      return { ...step, ...held, ways, fact: one('facts', step.fact) };
    case 'finding':
      return { ...step, ...held, faults: step.faults.map((fault) => one('faults', fault)) };
    case 'handoff':
      return { ...step, ...held };
  }
}

function renamedAction(action: Action, one: (of: Rename['section'], name: string) => string): Action {
  switch (action.do) {
    case 'turn':
      return { ...action, setting: one('settings', action.setting) };
    case 'jumper':
    case 'remove-jumper':
      return { ...action, from: one('terminals', action.from), to: one('terminals', action.to) };
    default:
      return action;
  }
}

/** Bands speak of facts; what is seen, done or chosen does not. */
function onOf(step: Step, on: string, { section, from, to }: Rename): string {
  if (section !== 'facts' || (step.kind !== 'reading' && step.kind !== 'ask')) return on;
  return on.replaceAll(new RegExp(`(?<![A-Za-z0-9_-])${from}(?![A-Za-z0-9_-])`, 'g'), to);
}

const same = <T>(before: T, after: T): T => (JSON.stringify(before) === JSON.stringify(after) ? before : after);
