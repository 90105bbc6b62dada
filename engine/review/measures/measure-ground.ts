import type { MeterAccuracy } from '../../quantity/index.ts';
import {
  type BestOrder,
  type MinutesModel,
  type Probe,
  probeKey,
  probeOf,
  type Reached,
  type ReadingWorth,
  readingWorth,
  type WalkAdvice,
  type WalkAdvisor,
} from '../../suspects/index.ts';
import { type CompiledStep, stepKey, type WalkableEdition } from '../../walk/index.ts';
import type { ReplayedLine, ReplayedLog } from '../replayed-log.ts';
import type { Confirmation, Measure, StepStay, WalkReview } from '../walk-review.ts';
import type { KeptAnswers } from './kept-answers.ts';
import { standingKey } from './standing-key.ts';

/** What a reviewer keeps of an edition for all its walks. */
export type EditionGround = {
  readonly edition: WalkableEdition;
  readonly advisor: WalkAdvisor;
  readonly meter: MeterAccuracy;
  /** Names of the benches that a walk's site could be. */
  benches(line: ReplayedLine): readonly string[];
  bestOrder(bench: string): BestOrder | undefined;
  minutes(bench: string): MinutesModel | undefined;
  /** How the tree comes to its steps. */
  reached(): ReadonlyMap<string, Reached>;
  /** What was worked out for walks that stood alike: a crew's calls go the same ways. */
  readonly advised: KeptAnswers<WalkAdvice>;
  readonly weighed: KeptAnswers<ReadingWorth | undefined>;
};

/** One reading or look that a walk went on from: the first that was taken on its stay. */
export type TakenReading = {
  readonly stay: StepStay;
  readonly replayed: ReplayedLine;
  readonly step: CompiledStep;
  readonly worth: ReadingWorth | undefined;
};

/** What every measure of a walk is made from. */
export type MeasureGround = {
  readonly of: EditionGround;
  readonly log: ReplayedLog;
  readonly stays: readonly StepStay[];
  readonly taken: readonly TakenReading[];
  readonly finding: WalkReview['finding'];
  readonly confirmation: Confirmation | undefined;
};

/** One measure: what it makes of a walk. */
export type MeasureOf = (ground: MeasureGround) => Measure;

/** Readings and looks that tell of the circuit, after the first one at the beginning; those that only prove something dead, or learn a fact, are asked for by safety and the site. */
export function takenReadings(
  { edition, advisor, meter, weighed }: EditionGround,
  { lines }: ReplayedLog,
  stays: readonly StepStay[],
): readonly TakenReading[] {
  return stays.flatMap((stay): readonly TakenReading[] => {
    // Every call begins by seeing the complaint, whatever that tells; and begins so again where trying it after a repair has failed.
    const isBeginning = stay.place === 0 || lines[stay.from]?.line.event.type === 'rechecked';
    if (isBeginning || stay.on === undefined || stay.couldNot) return [];
    const step = edition.compiled.steps.get(stepKey(stay.tree, stay.step));
    const asked = step?.step;
    if (!step || (asked?.kind !== 'reading' && asked?.kind !== 'look')) return [];
    if (asked.kind === 'reading' && (asked.proves || asked.sets !== undefined)) return [];
    const replayed = lines.slice(stay.from + 1, stay.to + 1).find(({ line: { event } }) => event.type === 'read' || event.type === 'looked');
    if (!replayed) return [];
    const probe = probeOf(asked);
    const { before, trailBefore } = replayed;
    const weigh = (of: Probe) => (): ReadingWorth | undefined =>
      readingWorth(advisor.diagnose(before, trailBefore), of, before.snapshot.context.circuit, meter);
    const worth = probe && weighed.answer(`${probeKey(probe)}\n${standingKey(replayed)}`, weigh(probe));
    return [{ stay, replayed, step, worth }];
  });
}

export const hasBench = ({ of }: MeasureGround): boolean => Object.keys(of.edition.compiled.edition.benches).length > 0;

/** What could be found out next as a walk stood before a line; searched as quickly as a phone would. */
export const adviceBefore = ({ of }: MeasureGround, replayed: ReplayedLine): WalkAdvice =>
  of.advised.answer(standingKey(replayed), () => of.advisor.advise(replayed.before, replayed.trailBefore, { most: 1 }));
