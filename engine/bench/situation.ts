import type { FactPoint } from '../formula/index.ts';
import type { Bench } from './bench.ts';
import { usualFacts } from './fact-corners.ts';

/**
 * What was done to a bench's circuit: settings, the site's facts (SI), faults, and a tech's jumpers and lifted leads. A value; every edit
 * is a changed copy, and an edit taken back gives the situation that was.
 */
export type Situation = {
  readonly settings: Readonly<Record<string, string>>;
  readonly facts: FactPoint;
  readonly faults: readonly string[];
  readonly jumpers: readonly (readonly [string, string])[];
  readonly lifted: readonly string[];
};

/** As the tech finds it: first states, usual facts, nothing wrong, nothing changed. */
export function asFound(bench: Bench): Situation {
  return {
    settings: Object.fromEntries(Object.entries(bench.settings).map(([name, states]) => [name, states[0] ?? ''])),
    facts: usualFacts(bench),
    faults: [],
    jumpers: [],
    lifted: [],
  };
}

const including = (list: readonly string[], name: string): readonly string[] => (list.includes(name) ? list : [...list, name].sort());
const excluding = (list: readonly string[], name: string): readonly string[] => list.filter((other) => other !== name);

export const withSetting = (situation: Situation, setting: string, state: string): Situation => ({
  ...situation,
  settings: { ...situation.settings, [setting]: state },
});

export const withFacts = (situation: Situation, facts: FactPoint): Situation => ({ ...situation, facts: { ...situation.facts, ...facts } });

export const withFault = (situation: Situation, fault: string): Situation => ({ ...situation, faults: including(situation.faults, fault) });
export const withoutFault = (situation: Situation, fault: string): Situation => ({ ...situation, faults: excluding(situation.faults, fault) });

export const withLifted = (situation: Situation, lead: string): Situation => ({ ...situation, lifted: including(situation.lifted, lead) });
export const withLanded = (situation: Situation, lead: string): Situation => ({ ...situation, lifted: excluding(situation.lifted, lead) });

// A jumper has no direction.
const ordered = (a: string, b: string): readonly [string, string] => (a < b ? [a, b] : [b, a]);
const isBetween = (jumper: readonly [string, string], [a, b]: readonly [string, string]): boolean => jumper[0] === a && jumper[1] === b;

export function withJumper(situation: Situation, a: string, b: string): Situation {
  const jumper = ordered(a, b);
  if (situation.jumpers.some((other) => isBetween(other, jumper))) return situation;
  const jumpers = [...situation.jumpers, jumper].sort((one, other) => (one.join(' ') < other.join(' ') ? -1 : 1));
  return { ...situation, jumpers };
}

export function withoutJumper(situation: Situation, a: string, b: string): Situation {
  const jumper = ordered(a, b);
  return { ...situation, jumpers: situation.jumpers.filter((other) => !isBetween(other, jumper)) };
}

/** One text per situation: equal texts, equal circuits. */
export const situationKey = (situation: Situation): string =>
  JSON.stringify([
    Object.entries(situation.settings).sort(([a], [b]) => (a < b ? -1 : 1)),
    Object.entries(situation.facts).sort(([a], [b]) => (a < b ? -1 : 1)),
    situation.faults,
    situation.jumpers,
    situation.lifted,
  ]);
