import { readBand, showBand } from '../formula/index.ts';
import { stepId } from './step-id.ts';
import { type Step, type Tree, waysOf } from './tree.ts';

type Recheck = NonNullable<Tree['recheck']>;

/** `water-runs is runs`: the step and the way on that means that the complaint is gone. */
export const showRecheck = (recheck: Recheck): string => `${recheck.step} is ${recheck.passes}`;

/** Reads `water-runs is runs`, or `water-runs` for the first way on of that step. */
export function readRecheck(text: string, steps: readonly Step[]): Recheck | undefined {
  const match = /^(\S+)(?:\s+is\s+(.+))?$/.exec(text);
  const step = stepId(match?.[1] ?? '');
  if (!match || step === '') return undefined;
  const target = steps.find((s) => s.id === step);
  const written = match[2];
  // A step that is not there has no first way; `done` stands for it until the missing step is reported.
  if (written === undefined) return { step, passes: (target && waysOf(target)[0]?.on) ?? 'done' };
  const band = target?.kind === 'reading' || target?.kind === 'ask' ? readBand(written) : undefined;
  return { step, passes: band?.ok ? showBand(band.value) : written };
}
