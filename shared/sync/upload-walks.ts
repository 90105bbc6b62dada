import { failure, type Result, success } from '../../engine/result.ts';
import type { WalkLine } from '../../engine/walk/index.ts';
import type { HubClient } from './hub-client.ts';
import type { HubProblem } from './hub-problem.ts';
import type { LocalWalk, SyncStore } from './sync-store.ts';
import { type LineOutcome, MOST_STANDINGS, MOST_UPLOAD_BYTES, type Standing } from './wire/walk-wire.ts';

/** What a device remembers between passes while the app is open. */
export type UploadMemory = {
  /** Walks with a line that the hub never takes: not compared with the hub any more. */
  readonly givenUp: Set<string>;
  /** Editions that the hub was given, or does not want. */
  readonly offered: Set<string>;
};

export const uploadMemory = (): UploadMemory => ({ givenUp: new Set(), offered: new Set() });

export type UploadWatch = {
  readonly signal?: AbortSignal;
  /** Lines that the hub has taken in this pass, and lines still to send. */
  readonly progress?: (sent: number, left: number) => void;
};

const A_BATCH = 200;
const A_BATCH_BYTES = MOST_UPLOAD_BYTES / 4;

type Piece = { readonly walk: LocalWalk; readonly lines: readonly WalkLine[] };
type Batch = { readonly pieces: readonly Piece[]; readonly count: number };

/** One pass: sends every unsent line, in order, in batches. Stops at the first problem; what was taken until then is marked as sent. */
export class WalkUpload {
  readonly #client: HubClient;
  readonly #store: SyncStore;
  readonly #memory: UploadMemory;
  readonly #watch: UploadWatch;
  /** Walks that were set back in this pass. Once each: a hub that forgets again and again must not keep a phone busy. */
  readonly #setBack = new Set<string>();
  #most = A_BATCH;
  #sent = 0;

  constructor(client: HubClient, store: SyncStore, memory: UploadMemory, watch: UploadWatch = {}) {
    this.#client = client;
    this.#store = store;
    this.#memory = memory;
    this.#watch = watch;
  }

  async run(): Promise<Result<number, HubProblem>> {
    for (;;) {
      const waiting = await this.#store.unsent();
      const left = waiting.reduce((sum, { length, sent }) => sum + length - sent, 0);
      this.#watch.progress?.(this.#sent, left);
      const batch = await this.#gather(waiting);
      if (batch.count === 0) return success(this.#sent);
      const sent = await this.#send(batch);
      if (!sent.ok) return sent;
    }
  }

  /** Asks the hub whether it holds what it has said to hold, and sets walks back where it does not. */
  async compare(most = MOST_STANDINGS): Promise<Result<void, HubProblem>> {
    const walks = (await this.#store.latest(most)).filter(({ walk, sent }) => sent > 0 && !this.#memory.givenUp.has(walk));
    for (let at = 0; at < walks.length; at += MOST_STANDINGS) {
      const some = walks.slice(at, at + MOST_STANDINGS);
      const answer = await this.#client.standings(some.map(({ walk }) => walk));
      if (!answer.ok) return answer;
      const known = new Map(answer.value.standings.map((standing) => [standing.walk, standing]));
      for (const walk of some) await this.#reconcile(walk, known.get(walk.walk));
    }
    return success(undefined);
  }

  async #gather(waiting: readonly LocalWalk[]): Promise<Batch> {
    const pieces: Piece[] = [];
    let [count, bytes] = [0, 0];
    for (const walk of waiting) {
      if (count >= this.#most || bytes >= A_BATCH_BYTES) break;
      const stored = await this.#store.lines(walk.walk, walk.sent, Math.min(this.#most - count, walk.length - walk.sent));
      const lines: WalkLine[] = [];
      for (const line of stored) {
        const size = JSON.stringify(line).length;
        if (count + lines.length > 0 && bytes + size > A_BATCH_BYTES) break;
        bytes += size;
        lines.push(line);
      }
      if (lines.length > 0) pieces.push({ walk, lines });
      count += lines.length;
    }
    return { pieces, count };
  }

  async #send(batch: Batch): Promise<Result<void, HubProblem>> {
    const lines = batch.pieces.flatMap((piece) => piece.lines);
    const tails = batch.pieces.map(({ walk: { walk, length, head } }) => ({ walk, length, head }));
    const answer = await this.#client.upload({ lines, tails }, this.#watch.signal);
    if (!answer.ok) {
      if (answer.problem.code !== 'too-large') return answer;
      return this.#tooLarge(batch);
    }
    const { outcomes, standings } = answer.value;
    if (outcomes.length !== lines.length) return failure({ code: 'answer-not-understood', status: 200 });
    let at = 0;
    for (const piece of batch.pieces) {
      await this.#settle(piece, outcomes.slice(at, at + piece.lines.length));
      at += piece.lines.length;
    }
    const known = new Map(standings.map((standing) => [standing.walk, standing]));
    for (const { walk, lines: sent } of batch.pieces) {
      const standing = known.get(walk.walk);
      await this.#reconcile({ ...walk, sent: walk.sent + sent.length }, standing);
      if (standing?.flags.includes('unknown-edition')) await this.#offerEdition(sent[0]?.edition);
    }
    this.#sent += lines.length;
    return success(undefined);
  }

  async #settle({ walk, lines }: Piece, outcomes: readonly LineOutcome[]): Promise<void> {
    for (const [index, outcome] of outcomes.entries()) {
      if (outcome.outcome === 'refused') {
        this.#memory.givenUp.add(walk.walk);
        const { fault, detail } = outcome;
        await this.#store.note(walk.walk, { code: 'line-refused', seq: lines[index]?.seq ?? walk.sent + index, fault, detail });
      }
    }
    if (outcomes.some(({ outcome }) => outcome === 'forked')) await this.#store.note(walk.walk, { code: 'forked' });
    await this.#store.setSent(walk.walk, walk.sent + lines.length);
  }

  async #tooLarge(batch: Batch): Promise<Result<void, HubProblem>> {
    if (batch.count > 1) {
      this.#most = Math.max(1, Math.floor(batch.count / 2));
      return success(undefined);
    }
    const piece = batch.pieces[0];
    const line = piece?.lines[0];
    if (!piece || !line) return success(undefined);
    this.#memory.givenUp.add(piece.walk.walk);
    await this.#store.note(piece.walk.walk, { code: 'line-refused', seq: line.seq, fault: 'too-large', detail: '' });
    await this.#store.setSent(piece.walk.walk, piece.walk.sent + 1);
    return success(undefined);
  }

  async #reconcile(walk: LocalWalk, standing: Standing | undefined): Promise<void> {
    if (this.#memory.givenUp.has(walk.walk) || this.#setBack.has(walk.walk)) return;
    const holds = heldOf(walk, standing);
    if (holds >= walk.sent) return;
    this.#setBack.add(walk.walk);
    await this.#store.setSent(walk.walk, holds);
  }

  async #offerEdition(hash: string | undefined): Promise<void> {
    if (hash === undefined || this.#memory.offered.has(hash)) return;
    this.#memory.offered.add(hash);
    const edition = await this.#store.edition(hash);
    // Whether it was wanted or not: the walk is safe either way, and the next start offers it again.
    if (edition) await this.#client.keepEdition(hash, edition);
  }
}

/** Lines of a walk, from 0, that can be taken as held by the hub. */
function heldOf(walk: LocalWalk, standing: Standing | undefined): number {
  if (!standing) return 0;
  // With a fork the hub's main run may be the other one; the number of lines is then what can be compared.
  if (standing.flags.includes('forked')) return standing.lines >= walk.sent ? walk.sent : 0;
  if (standing.length === walk.length && standing.head !== walk.head) return 0;
  return Math.min(standing.length, walk.sent);
}
