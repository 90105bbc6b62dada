import '../../../shared/ui/no-code-from-text.ts';
import { crewMeasures, Reviewer } from '../../../engine/review/index.ts';
import { walkableEdition } from '../../../engine/walk/index.ts';
import type { ReviewAnswer, ReviewRequest, WalkRequest } from './review-message.ts';

const reviewers = new Map<string, Reviewer>();
const answer = (message: ReviewAnswer): void => self.postMessage(message);

function reviewerOf({ hash, edition }: WalkRequest): Reviewer | undefined {
  const reviewer = reviewers.get(hash) ?? (edition && new Reviewer(walkableEdition(edition)));
  if (reviewer) reviewers.set(hash, reviewer);
  return reviewer;
}

function answered(data: ReviewRequest): ReviewAnswer {
  if ('crew' in data) {
    const names = new Map(data.crew.map(({ review, name }) => [review, name]));
    return {
      id: data.id,
      measures: crewMeasures(
        data.crew.map(({ review }) => review),
        (review) => names.get(review) ?? '',
      ),
    };
  }
  const reviewer = reviewerOf(data);
  if (!reviewer) return { id: data.id, failed: 'The edition did not come along.' };
  return { id: data.id, review: reviewer.review(data.lines, data.confirmation ? { confirmation: data.confirmation } : {}) };
}

self.addEventListener('message', ({ data }: MessageEvent<ReviewRequest>) => {
  try {
    answer(answered(data));
  } catch (error) {
    answer({ id: data.id, failed: error instanceof Error ? error.message : String(error) });
  }
});
