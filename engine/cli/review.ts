import { failure, type Result, success } from '../result.ts';
import { type Confirmation, type CrewMeasures, type CrewPicture, crewMeasures, crewPicture, Reviewer, type WalkReview } from '../review/index.ts';
import { type Edition, logLines, walkableEdition } from '../walk/index.ts';
import { readTextFile } from './read-text-file.ts';
import { editionNamedIn, editionOf } from './replay.ts';

export type ReviewFileOptions = {
  readonly edition?: string;
  readonly trees: string;
  /** `held`, `came-back`, or the fault that it was. */
  readonly confirmed?: string;
};

/** One log's review, with the file that it came from. */
export type ReviewedLog = { readonly file: string; readonly review: WalkReview };

export type ReviewReport = {
  readonly reviews: readonly ReviewedLog[];
  /** Logs of a walk that another of them tells further. */
  readonly left: readonly string[];
  /** Of several logs: all but the drills together. */
  readonly crew: CrewMeasures | null;
  /** Where the calls of each tree went. */
  readonly pictures: readonly CrewPicture[];
};

/** Reviews log files, each on the edition it names. A walk that several of them tell is reviewed once, from the one that can be trusted furthest. */
export async function reviewFiles(files: readonly string[], options: ReviewFileOptions): Promise<Result<ReviewReport, string>> {
  if (options.confirmed !== undefined && files.length !== 1) return failure('--confirmed says what one call turned out to be. Give it with one log.');
  const reviewers = new Map<string, Reviewer>();
  const furthest = new Map<string, ReviewedLog & { readonly trusted: number }>();
  const left: string[] = [];
  for (const file of files) {
    const text = readTextFile(file, 'log');
    if (!text.ok) return text;
    const lines = logLines(text.value);
    const hash = editionNamedIn(lines);
    if (hash === undefined) return failure(`${file} holds no line of a walk's log.`);
    let reviewer = reviewers.get(hash);
    if (!reviewer) {
      const edition = await editionOf(file, hash, options.edition, options.trees);
      if (!edition.ok) return edition;
      reviewer = new Reviewer(walkableEdition(edition.value));
      reviewers.set(hash, reviewer);
    }
    const found = confirmationOf(options.confirmed, reviewer.edition.compiled.edition);
    if (!found.ok) return found;
    const plain = reviewer.review(lines, found.value && { confirmation: found.value });
    const review = withHeld(reviewer, lines, plain);
    const trusted = review.problems[0]?.line ?? lines.length;
    const before = furthest.get(review.walk);
    if (before && before.trusted >= trusted) left.push(file);
    else {
      if (before) left.push(before.file);
      furthest.set(review.walk, { file, review, trusted });
    }
  }
  const reviews = [...furthest.values()].map(({ file, review }) => ({ file, review }));
  if (files.length === 1) return success({ reviews, left, crew: null, pictures: [] });
  const calls = reviews.flatMap(({ review }) => (review.drill ? [] : [review]));
  const trees = [...new Set(calls.map(({ tree }) => tree))].sort();
  const pictured = calls.map((call) => ({ ...call, minutes: minutesOf(call) }));
  return success({ reviews, left, crew: crewMeasures(calls), pictures: trees.map((tree) => crewPicture(tree, pictured)) });
}

function minutesOf({ measures }: WalkReview): number {
  const found = measures.find(({ code }) => code === 'minutes');
  return found && 'value' in found ? found.value : 0;
}

/** What `--confirmed` says; whether the finding held where it names a fault is told once the finding is known. */
function confirmationOf(confirmed: string | undefined, edition: Edition): Result<Confirmation | undefined, string> {
  if (confirmed === undefined) return success(undefined);
  if (confirmed === 'held') return success({ held: true });
  if (confirmed === 'came-back') return success({ held: false });
  const benches = Object.entries(edition.benches).flatMap(([name, { faults }]) => (Object.hasOwn(faults, confirmed) ? [name] : []));
  const findings = Object.values(edition.trees).flatMap(({ steps }) => steps.flatMap((step) => (step.kind === 'finding' ? step.faults : [])));
  if (benches.length === 0 && !findings.includes(confirmed)) {
    const known = new Set([...findings, ...Object.values(edition.benches).flatMap(({ faults }) => Object.keys(faults))]);
    return failure(
      `Neither a bench nor a finding of this log's edition has a fault ${confirmed}. Say held, came-back, or one of: ${[...known].sort().join(', ')}.`,
    );
  }
  const [only] = benches;
  return success({ held: false, fault: confirmed, ...(only !== undefined && benches.length === 1 && { bench: only }) });
}

/** Whether a finding held, where a fault was named: it did when the finding names that fault. */
function withHeld(reviewer: Reviewer, lines: readonly unknown[], review: WalkReview): WalkReview {
  const { confirmation, finding } = review;
  if (confirmation?.fault === undefined || !finding?.faults.includes(confirmation.fault)) return review;
  return reviewer.review(lines, { confirmation: { ...confirmation, held: true } });
}
