import type { PreparedBench } from '../../bench/index.ts';
import { type Action, type Step, showAction } from '../../tree/index.ts';
import type { CompiledEdition } from '../../walk/index.ts';
import { type Probe, probeKey, probeOf } from '../observe/probe.ts';
import { CommonPoints } from './common-points.ts';
import { type MinutesModel, USUAL_MINUTES, usualMinutes } from './usual-minutes.ts';

/**
 * The minutes that a tree itself counts with, for measuring it against the best there is: of a reading or look that it takes, its own (the least, if several steps take it;
 * the first step's, if it is that); of another
 * reading, those of the dearest of its two points to get to; of an act, its share of the acts that it is in. What the tree says nothing of has the usual minutes.
 */
export function treeMinutes(edition: CompiledEdition, prepared: PreparedBench): MinutesModel {
  const usual = usualMinutes(prepared);
  const points = new CommonPoints(prepared);
  const steps = Object.values(edition.edition.trees).flatMap((tree) => tree.steps);
  const taken = new Map<string, number>();
  const reach = new Map<string, number>();
  const acts = new Map<string, number>();
  const least = (of: Map<string, number>, key: string, minutes: number): void =>
    void of.set(key, Math.min(of.get(key) ?? Number.POSITIVE_INFINITY, minutes));
  let dead = Number.POSITIVE_INFINITY;
  for (const step of steps) {
    if (step.kind === 'act') {
      const whole = step.does.reduce((sum, action) => sum + usual.action(action), 0);
      for (const action of step.does)
        least(acts, showAction(action), whole > 0 ? rounded((usual.action(action) * step.minutes) / whole) : step.minutes);
    } else if (isDead(step)) dead = Math.min(dead, step.minutes);
    else if (step.kind === 'reading' || step.kind === 'look') {
      const probe = probeOf(step);
      if (!probe) continue;
      least(taken, probeKey(probe), step.minutes);
      if (probe.kind === 'reading') for (const point of probe.across ?? []) least(reach, point, step.minutes);
    }
  }
  // What a walk begins with takes what it takes there, settling and all, however quickly it is looked at again.
  const start = edition.steps.get(edition.start)?.step;
  const first = start?.kind === 'look' || start?.kind === 'reading' ? probeOf(start) : undefined;
  if (start && first) taken.set(probeKey(first), start.minutes);
  const between = (probe: Probe): number | undefined => {
    if (probe.kind !== 'reading' || !probe.across) return undefined;
    const known = probe.across.flatMap((point) => reach.get(point) ?? []);
    if (known.length === 0) return undefined;
    const apart = points.kind(...probe.across) === 'apart' ? USUAL_MINUTES.apart - USUAL_MINUTES.reading : 0;
    return Math.max(...known, known.length < 2 ? USUAL_MINUTES.reading : 0) + apart;
  };
  return {
    probe: (probe) => taken.get(probeKey(probe)) ?? between(probe) ?? usual.probe(probe),
    action: (action: Action) => acts.get(showAction(action)) ?? usual.action(action),
    dead: Number.isFinite(dead) ? dead : usual.dead,
  };
}

// A share of a step is written into a draft: a hundredth of a minute is enough.
const rounded = (minutes: number): number => Math.round(minutes * 100) / 100;

const isDead = (step: Step): boolean => step.kind === 'reading' && step.proves === 'dead';
