import { jumperKey } from '../../tree/index.ts';
import {
  type AsFound,
  afterAction,
  afterWay,
  type CircuitState,
  type CompiledStep,
  isDeadWay,
  type PutBackItem,
  putBackItems,
  puttingBack,
  type SafetyModel,
} from '../../walk/index.ts';
import type { Stance } from '../isolate/set-up-plan.ts';
import type { Reached } from './reached-circuits.ts';

/** How a walk gets to a step's reading from where it stands: what it puts back first, and by a jump to a step or by going on as it is. */
export type Jump = { readonly step: CompiledStep; readonly onTheWay: boolean; readonly putBack: readonly PutBackItem[] };

/** Where a walk stands, for finding a way from there. `at` is the key of its step. */
export type JumpFrom = {
  readonly circuit: CircuitState;
  readonly at: string | undefined;
  readonly asFound: AsFound;
  readonly safety: readonly SafetyModel[];
};

/**
 * The step to jump to for a reading: the step itself where it can be taken as the circuit stands, or once what it does not need is put back; else the first of the
 * acts that lead up to it. Undefined where none of these is safe, or would leave the circuit otherwise than the reading needs it.
 */
export function jumpFor({ step, chain }: Reached, stance: Stance | undefined, from: JumpFrom): Jump | undefined {
  const whole = [...chain, step];
  const here = whole.findIndex(({ key }) => key === from.at);
  if (here >= 0 && leadsThere(whole.slice(here), stance, from.circuit, from.safety))
    return { step: whole[here] ?? step, onTheWay: true, putBack: [] };
  const putBack = stance ? unwanted(from, stance) : [];
  const cleared = afterPutBack(from, putBack);
  for (const [circuit, items] of [[from.circuit, []], ...(cleared ? [[cleared, putBack] as const] : [])] as const) {
    for (const start of chain.length > 0 ? [whole.length - 1, 0] : [0]) {
      const first = whole[start];
      if (first && leadsThere(whole.slice(start), stance, circuit, from.safety)) return { step: first, onTheWay: false, putBack: items };
    }
  }
  return undefined;
}

/** What is in place that a stance does not want, in the order to put it back. */
function unwanted({ circuit, asFound }: JumpFrom, stance: Stance): readonly PutBackItem[] {
  const wanted = new Set(stance.jumpers.map(([a, b]) => jumperKey(a, b)));
  return putBackItems(circuit, asFound).filter((item) => {
    if (item.kind === 'jumper') return !wanted.has(jumperKey(item.from, item.to));
    return item.kind === 'lifted' ? !stance.lifted.includes(item.lead) : stance.settings[item.setting] === item.asFound;
  });
}

/** The circuit once items are put back; undefined where a walk would not let one of them. */
function afterPutBack({ circuit: start, asFound, safety }: JumpFrom, items: readonly PutBackItem[]): CircuitState | undefined {
  const isLive = (item: PutBackItem, circuit: CircuitState): boolean =>
    safety.some((model) => model.actConcerns([puttingBack(item)], circuit).some(({ code }) => code === 'touched-while-live'));
  let circuit = start;
  for (const item of items) {
    const next = afterAction(circuit, puttingBack(item));
    // A lead or jumper that stays must not be out of reach once a setting is back.
    const left = item.kind === 'setting' ? putBackItems(circuit, asFound).filter((other) => other.kind !== 'setting') : [];
    const stranded = left.some((other) => !isLive(other, circuit) && isLive(other, next));
    if (stranded || (item.kind !== 'setting' && isLive(item, circuit))) return undefined;
    circuit = next;
  }
  return circuit;
}

function leadsThere(steps: readonly CompiledStep[], stance: Stance | undefined, now: CircuitState, safety: readonly SafetyModel[]): boolean {
  let circuit = now;
  for (const step of steps) {
    // What a step holds can be turned so when the walk stands on it.
    const held = Object.fromEntries(step.step.while.map(({ setting, state }) => [setting, state]));
    const isHeld = step.step.while.every(({ setting, state }) => circuit.settings[setting] === state);
    if (!isHeld) circuit = { ...circuit, settings: { ...circuit.settings, ...held }, meterProved: false, dead: [] };
    if (safety.some((model) => model.concerns(step, circuit).length > 0)) return false;
    const on = step.step.kind === 'act' ? 'done' : [...step.leadsTo.keys()].find((way) => isDeadWay(step, way));
    if (step !== steps.at(-1) && on !== undefined) circuit = afterWay(step, circuit, on);
  }
  return stance === undefined || standsSo(circuit, stance);
}

function standsSo({ settings, jumpers, lifted }: CircuitState, stance: Stance): boolean {
  const keys = (of: Stance['jumpers']): string =>
    of
      .map(([a, b]) => jumperKey(a, b))
      .sort()
      .join();
  return (
    Object.entries(stance.settings).every(([setting, state]) => settings[setting] === state) &&
    keys(jumpers) === keys(stance.jumpers) &&
    [...lifted].sort().join() === [...stance.lifted].sort().join()
  );
}
