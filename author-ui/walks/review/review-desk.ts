import { failure, type Result, success } from '../../../engine/result.ts';
import type { Confirmation, CrewMeasures, WalkReview } from '../../../engine/review/index.ts';
import type { Edition } from '../../../engine/walk/index.ts';
import type { WalksDb } from '../source/walks-db.ts';
import { reviewKey } from './review-key.ts';
import type { CrewRequest, ReviewAnswer, WalkRequest } from './review-message.ts';

export type ToReview = {
  readonly walk: string;
  readonly edition: Edition;
  readonly hash: string;
  readonly lines: readonly unknown[];
  readonly confirmation?: Confirmation | undefined;
};

/** Reviews walks in a worker, and keeps what it made of them. `stop` ends it; what was asked and not answered stays unanswered. */
export class ReviewDesk {
  private worker: Worker | undefined;
  private asked = 0;
  private readonly sent = new Set<string>();
  private readonly waiting = new Map<number, (answer: ReviewAnswer) => void>();

  constructor(private readonly db: WalksDb) {}

  async review({ walk, edition, hash, lines, confirmation }: ToReview): Promise<Result<WalkReview, string>> {
    const key = reviewKey(walk, lines, confirmation);
    const kept = await this.db.reviews.get(key).catch(() => undefined);
    if (kept) return success(kept.review);
    const worker = this.started();
    const isFirst = !this.sent.has(hash);
    this.sent.add(hash);
    const answer = await this.ask(worker, { hash, lines, ...(isFirst && { edition }), ...(confirmation && { confirmation }) });
    if (!('review' in answer)) return failure('failed' in answer ? answer.failed : 'Something else was answered.');
    const { review } = answer;
    // Only so that it need not be worked out again; older ones of the same walk are of no more use.
    await this.db
      .transaction('rw', this.db.reviews, async () => {
        await this.db.reviews.where('walk').equals(walk).delete();
        await this.db.reviews.put({ key, walk, review });
      })
      .catch(() => undefined);
    return success(review);
  }

  /** What many reviews come to together. */
  async crew(crew: CrewRequest['crew']): Promise<Result<CrewMeasures, string>> {
    const answer = await this.ask(this.started(), { crew });
    if ('measures' in answer) return success(answer.measures);
    return failure('failed' in answer ? answer.failed : 'Something else was answered.');
  }

  stop(): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.waiting.clear();
    this.sent.clear();
  }

  private ask(worker: Worker, request: Omit<WalkRequest, 'id'> | Omit<CrewRequest, 'id'>): Promise<ReviewAnswer> {
    this.asked += 1;
    const id = this.asked;
    return new Promise((resolve) => {
      this.waiting.set(id, resolve);
      worker.postMessage({ ...request, id });
    });
  }

  private started(): Worker {
    if (this.worker) return this.worker;
    const worker = new Worker(new URL('./review-worker.ts', import.meta.url), { type: 'module', name: 'review' });
    worker.addEventListener('message', ({ data }: MessageEvent<ReviewAnswer>) => {
      const resolve = this.waiting.get(data.id);
      this.waiting.delete(data.id);
      resolve?.(data);
    });
    worker.addEventListener('error', (event) => {
      const failed = event.message || 'The part of the desk that reviews walks did not start.';
      for (const [id, resolve] of this.waiting) resolve({ id, failed });
      this.waiting.clear();
      // One that did not start answers nothing that it is asked from now on.
      if (this.worker === worker) this.stop();
    });
    this.worker = worker;
    return worker;
  }
}
