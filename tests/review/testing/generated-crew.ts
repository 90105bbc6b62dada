import { seededRandom } from '../../crew/testing/seeded-random.ts';
import { type GeneratedCall, generatedCall, type Habits, type SlowStep } from './generated-call.ts';
import type { CallGround } from './shelf-grounds.ts';

/** One tech of a generated crew. */
export type GeneratedTech = { readonly by: string; readonly habits: Habits; readonly slow?: SlowStep };

export type GeneratedCrew = {
  readonly grounds: readonly CallGround[];
  readonly techs: readonly GeneratedTech[];
  readonly calls: number;
  readonly seed: number;
};

const DAY = 86_400_000;

/** A crew's calls, one after another: each on a tree and bench by chance, with a fault drawn by the bench's weights. The same on every run. */
export function* generatedCrew({ grounds, techs, calls, seed }: GeneratedCrew): Generator<GeneratedCall> {
  const random = seededRandom(seed);
  const first = Date.UTC(2026, 0, 5, 8);
  for (let call = 0; call < calls; call += 1) {
    for (const [i, { by, habits, slow }] of techs.entries()) {
      const ground = grounds[Math.floor(random() * grounds.length)];
      if (!ground) throw new RangeError('a crew needs a ground');
      const start = first + call * DAY + Math.floor(random() * 8) * 3_600_000;
      yield generatedCall({ id: `call-${i}-${call}`, by, ground, fault: drawn(ground, random), habits, random, start, ...(slow && { slow }) });
    }
  }
}

function drawn({ faults }: CallGround, random: () => number): string {
  let left = random() * faults.reduce((sum, { weight }) => sum + weight, 0);
  for (const { fault, weight } of faults) {
    left -= weight;
    if (left < 0) return fault;
  }
  return faults.at(-1)?.fault ?? '';
}
