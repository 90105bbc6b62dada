import {
  added,
  addTo,
  type CrewPicture,
  emptyPicture,
  emptyPictureStep,
  minutesBin,
  type OpenPicture,
  type OpenPictureStep,
} from '../crew-picture.ts';
import type { Confirmation, StepStay, WalkReview } from '../walk-review.ts';

/** What a picture takes of a walk. */
export type PicturedWalk = Pick<WalkReview, 'edition' | 'tree' | 'drill' | 'closed' | 'outcome' | 'finding' | 'stays'> & {
  readonly confirmation?: Confirmation;
  /** From opening to closing, pauses taken out; counted for closed walks. */
  readonly minutes: number;
};

/** An edition's picture while walks are being counted into it. */
class EditionSum {
  readonly picture: OpenPicture;
  private readonly findings = new Map<string, OpenPicture['findings'][number]>();
  private readonly steps = new Map<string, OpenPictureStep>();

  constructor(edition: string) {
    this.picture = emptyPicture(edition);
  }

  take(walk: PicturedWalk): void {
    const { picture } = this;
    picture.walks += 1;
    if (walk.closed === undefined) return;
    picture.closed += 1;
    picture.minutesSum += walk.minutes;
    addTo(picture.minutes, minutesBin(walk.minutes));
    if (walk.outcome !== undefined) addTo(picture.outcomes, walk.outcome);
    if (walk.finding) this.found(walk.finding, walk.confirmation);
    for (const stay of walk.stays) this.stayed(stay);
  }

  private found({ tree, step }: { readonly tree: string; readonly step: string }, confirmation: Confirmation | undefined): void {
    const sum = added(this.findings, `${tree}/${step}`, this.picture.findings, () => ({ tree, step, walks: 0, held: 0, cameBack: 0 }));
    sum.walks += 1;
    if (confirmation?.held === true) sum.held += 1;
    if (confirmation?.held === false) sum.cameBack += 1;
  }

  private stayed({ tree, step, minutes, couldNot, tooClose, acceptedTooClose, jumped, steppedBack, on }: StepStay): void {
    const sum = added(this.steps, `${tree}/${step}`, this.picture.steps, () => emptyPictureStep(tree, step));
    sum.stays += 1;
    sum.minutesSum += minutes;
    addTo(sum.minutes, minutesBin(minutes));
    if (couldNot) sum.couldNot += 1;
    if (tooClose) sum.tooClose += 1;
    if (acceptedTooClose) sum.acceptedTooClose += 1;
    if (jumped) sum.jumpedTo += 1;
    if (steppedBack) sum.steppedBack += 1;
    if (on !== undefined) addTo(sum.ways, on);
  }
}

/** Where walks of one tree went; of those that are still open only how many there are. Editions come in the order in which they are first met; drills and other trees are left out. */
export function crewPicture(tree: string, walks: Iterable<PicturedWalk>): CrewPicture {
  const editions = new Map<string, EditionSum>();
  for (const walk of walks) {
    if (walk.drill || walk.tree !== tree) continue;
    const sum = editions.get(walk.edition) ?? new EditionSum(walk.edition);
    editions.set(walk.edition, sum);
    sum.take(walk);
  }
  return { tree, editions: [...editions.values()].map(({ picture }) => picture) };
}
