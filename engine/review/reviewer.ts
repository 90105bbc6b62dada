import { prepare } from '../bench/index.ts';
import { type MeterAccuracy, readMeterAccuracy, USUAL_METER } from '../quantity/index.ts';
import {
  type BestOrder,
  bestOrder,
  type MinutesModel,
  type Reached,
  type ReadingWorth,
  reachedCircuits,
  treeMinutes,
  type WalkAdvice,
  WalkAdvisor,
} from '../suspects/index.ts';
import type { WalkableEdition } from '../walk/index.ts';
import { MEASURES_IN_ORDER } from './measures/all-measures.ts';
import { KeptAnswers } from './measures/kept-answers.ts';
import { type EditionGround, type MeasureGround, takenReadings } from './measures/measure-ground.ts';
import { type ReplayedLine, type ReplayedLog, replayedLog } from './replayed-log.ts';
import { WalkReplay } from './walk-replay.ts';
import type { Confirmation, MeasureCode, WalkReview } from './walk-review.ts';
import { staysOf } from './walk-stays.ts';

export type ReviewOptions = {
  /** What was learnt of the finding afterwards. */
  readonly confirmation?: Confirmation;
  /** Only these measures; all where absent. */
  readonly only?: readonly MeasureCode[];
};

/** Houses of each bench that are kept solved: a crew's calls meet the usual house again and again, and each fact told makes another of it. */
const HOUSES = 16;

/** Some kilobytes each, and less. */
const MOST_ADVISED = 1_000;
const MOST_WEIGHED = 10_000;

/** Reviews the walks of one edition. It keeps the benches that it has solved and the best orders, so that the next walk costs little more than its replay. */
export class Reviewer implements EditionGround {
  readonly advisor: WalkAdvisor;
  readonly meter: MeterAccuracy;
  readonly advised = new KeptAnswers<WalkAdvice>(MOST_ADVISED);
  readonly weighed = new KeptAnswers<ReadingWorth | undefined>(MOST_WEIGHED);
  private readonly orders = new Map<string, BestOrder | undefined>();
  private readonly models = new Map<string, MinutesModel | undefined>();
  private reachedSteps: ReadonlyMap<string, Reached> | undefined;

  constructor(readonly edition: WalkableEdition) {
    this.advisor = new WalkAdvisor(edition.compiled, HOUSES);
    const meter = readMeterAccuracy(edition.compiled.root.meter);
    this.meter = meter.ok ? meter.value : USUAL_METER;
  }

  /** A log of the edition as a trainer sees it: what was done, how long it took, and every measure with the lines that made it. */
  review(lines: readonly unknown[], options: ReviewOptions = {}): WalkReview {
    return this.reviewOf(replayedLog(this.edition, lines), options);
  }

  /** A log to look at line by line. */
  replay(lines: readonly unknown[]): WalkReplay {
    return new WalkReplay(this.edition, lines, this.advisor);
  }

  reviewOf(log: ReplayedLog, { confirmation, only }: ReviewOptions = {}): WalkReview {
    const { edition } = this;
    const { context } = log.end.snapshot;
    const stays = staysOf(edition, log);
    const finding = findingOf(edition, log);
    const ground: MeasureGround = { of: this, log, stays, taken: takenReadings(this, log, stays), finding, confirmation };
    const first = log.lines[0]?.line;
    const last = log.lines.at(-1)?.line;
    const { by, site, drill } = context.opened;
    return {
      walk: log.end.id,
      edition: edition.hash,
      tree: edition.compiled.root.name,
      title: edition.compiled.root.title,
      ...(by !== undefined && { by }),
      ...(site !== undefined && { site }),
      drill: drill === true,
      ...(first && { opened: first.time }),
      ...(last?.event.type === 'closed' && { closed: last.time }),
      ...(context.outcome !== undefined && { outcome: context.outcome }),
      ...(finding && { finding }),
      ...(confirmation && { confirmation }),
      stays,
      measures: MEASURES_IN_ORDER.filter(({ code }) => only?.includes(code) ?? true).map(({ of }) => of(ground)),
      problems: log.problems,
    };
  }

  benches({ before }: ReplayedLine): readonly string[] {
    return this.advisor.wirings(before);
  }

  bestOrder(bench: string): BestOrder | undefined {
    if (!this.orders.has(bench)) this.orders.set(bench, bestOrder(this.edition.compiled, bench));
    return this.orders.get(bench);
  }

  minutes(name: string): MinutesModel | undefined {
    const bench = this.edition.compiled.edition.benches[name];
    if (!this.models.has(name)) this.models.set(name, bench && treeMinutes(this.edition.compiled, prepare(bench)));
    return this.models.get(name);
  }

  reached(): ReadonlyMap<string, Reached> {
    this.reachedSteps ??= reachedCircuits(this.edition.compiled);
    return this.reachedSteps;
  }
}

/** The last finding that was accepted; else the one that the walk stands on. */
function findingOf({ compiled }: WalkableEdition, { lines, end }: ReplayedLog): WalkReview['finding'] {
  const found = lines.findLast(({ line }) => line.event.type === 'found');
  const at = found?.before.snapshot.context.at ?? end.snapshot.context.at;
  const step = at === undefined ? undefined : compiled.steps.get(at);
  if (step?.step.kind !== 'finding') return undefined;
  const { id, title, faults } = step.step;
  return { tree: step.tree.name, step: id, title, faults };
}
