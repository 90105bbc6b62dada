import { probeKey, probeOf, probeWords } from '../../suspects/index.ts';
import type { Measure, MeasureEvidence } from '../walk-review.ts';
import { adviceBefore, hasBench, type MeasureGround, type TakenReading } from './measure-ground.ts';

/** Below it, in bits, a reading could change nothing that anyone would act on. */
const NOTHING_TOLD = 0.005;

/** The share of what is left that would show what the favourite shows, from which on a reading can only confirm it. */
const ONLY_CONFIRMS = 0.9;

/** How many times as much a minute another reading has to tell. */
const TWICE = 2;

/** A suspect this likely is reckoned with. */
const STILL_LEFT = 0.05;

const named = (faults: readonly string[]): string => faults.join(' + ') || 'nothing wrong';

const evidenceOf = ({ stay, replayed }: TakenReading, values: MeasureEvidence['values'] = {}): MeasureEvidence => ({
  seq: replayed.line.seq,
  tree: stay.tree,
  step: stay.step,
  values,
});

/** Readings that could not change what was possible, whatever they showed. */
export function redundant(ground: MeasureGround): Measure {
  if (!hasBench(ground)) return { code: 'redundant', missing: 'no-bench' };
  const found = ground.taken.filter(({ worth }) => worth !== undefined && worth.gain < NOTHING_TOLD);
  return {
    code: 'redundant',
    value: found.length,
    evidence: found.map((reading) =>
      evidenceOf(reading, { left: reading.worth?.left.length ?? 0, favourite: named(reading.worth?.left[0]?.faults ?? []) }),
    ),
  };
}

/** A finding that was accepted while something else was left that a reading could have told from it. */
export function premature(ground: MeasureGround): Measure {
  if (!hasBench(ground)) return { code: 'premature', missing: 'no-bench' };
  const { log, of } = ground;
  const findings = log.lines.filter(({ line }) => line.event.type === 'found');
  if (findings.length === 0) return { code: 'premature', missing: 'no-finding' };
  const early = findings.flatMap((replayed): readonly MeasureEvidence[] => {
    const { at, excluded } = replayed.before.snapshot.context;
    const step = at === undefined ? undefined : of.edition.compiled.steps.get(at);
    if (step?.step.kind !== 'finding') return [];
    const { faults } = step.step;
    const { faults: suspects, nothingWrong } = of.advisor.suspects(replayed.before, replayed.trailBefore);
    const others = [
      ...suspects.filter(({ fault, probability }) => probability >= STILL_LEFT && !faults.includes(fault) && !excluded.includes(fault)),
      ...(nothingWrong >= STILL_LEFT && faults.length > 0 ? [{ fault: 'nothing wrong', probability: nothingWrong }] : []),
    ];
    if (others.length === 0) return [];
    const [next] = adviceBefore(ground, replayed).next.readings;
    if (!next) return [];
    const told = suspects.reduce((sum, { fault, probability }) => (faults.includes(fault) ? sum + probability : sum), 0);
    const values = { said: named(faults), share: told, left: others.map(({ fault }) => fault).join(', '), could: probeWords(next.candidate.probe) };
    return [{ seq: replayed.line.seq, tree: step.tree.name, step: step.step.id, values }];
  });
  return { code: 'premature', value: early.length > 0 ? 1 : 0, evidence: early };
}

/** The longest run of readings that could only confirm the favourite while another told twice as much a minute. */
export function streak(ground: MeasureGround): Measure {
  if (!hasBench(ground)) return { code: 'streak', missing: 'no-bench' };
  let run: MeasureEvidence[] = [];
  let longest: readonly MeasureEvidence[] = [];
  for (const reading of ground.taken) {
    const better = betterThan(ground, reading);
    run = better ? [...run, better] : [];
    if (run.length > longest.length) longest = run;
  }
  // One such reading is a slip; a run of them is holding on to a guess.
  return longest.length < 2 ? { code: 'streak', value: 0, evidence: [] } : { code: 'streak', value: longest.length, evidence: longest };
}

function betterThan(ground: MeasureGround, reading: TakenReading): MeasureEvidence | undefined {
  const { worth, step, replayed } = reading;
  if (!worth || worth.left.length < 2 || worth.favourite.length === 0 || worth.confirms < ONLY_CONFIRMS) return undefined;
  const { step: asked } = step;
  const own = asked.kind === 'reading' || asked.kind === 'look' ? probeOf(asked) : undefined;
  if (!own) return undefined;
  const aMinute = worth.gain / Math.max(asked.minutes, 0.1);
  const others = adviceBefore(ground, replayed).next.readings.filter(({ candidate }) => probeKey(candidate.probe) !== probeKey(own));
  const best = others.reduce<(typeof others)[number] | undefined>(
    (most, each) => (most === undefined || each.gain / Math.max(each.minutes, 0.1) > most.gain / Math.max(most.minutes, 0.1) ? each : most),
    undefined,
  );
  if (!best || best.gain < NOTHING_TOLD || best.gain / Math.max(best.minutes, 0.1) < TWICE * aMinute) return undefined;
  return evidenceOf(reading, {
    favourite: named(worth.favourite),
    could: probeWords(best.candidate.probe),
    told: worth.gain,
    more: best.gain,
  });
}
