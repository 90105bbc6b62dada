import { failure, type Result, success } from '../../engine/result.ts';
import {
  type DrillMove,
  type DrillRecord,
  type DrillRefusal,
  type DrillRun,
  type RecordProblem,
  replayDrill,
  takeMove,
} from '../../engine/review/index.ts';
import type { Stamp, WalkableEdition } from '../../engine/walk/index.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import type { DrillStore } from './drill-store.ts';

export type DrillTrouble =
  | { readonly kind: 'refused'; readonly refusal: DrillRefusal }
  | { readonly kind: 'not-stored'; readonly problem: StorageProblem };

/** What the screens of one drill show. Replaced by every move, never changed. */
export type DrillState = {
  readonly run: DrillRun;
  /** What the last move showed: a sign seen or not. The meter's display is the run's own. */
  readonly seen?: { readonly sign: string; readonly text: string };
  readonly trouble?: DrillTrouble;
  readonly writing: boolean;
  /** The stored record comes out otherwise from here on. */
  readonly broken?: RecordProblem;
  readonly away: boolean;
};

type Parts = { readonly store: Pick<DrillStore, 'keep'>; readonly stamp: () => Stamp };

/** One drill on the screen. As in a walk: taken purely, written durably, then shown. */
export class DrillSession {
  readonly #parts: Parts;
  readonly #listeners = new Set<() => void>();
  #state: DrillState;

  private constructor(state: DrillState, parts: Parts) {
    this.#state = state;
    this.#parts = parts;
  }

  static open(edition: WalkableEdition, record: DrillRecord, parts: Parts): Result<DrillSession, RecordProblem> {
    const replayed = replayDrill(edition, record);
    if (!replayed.ok) return failure(replayed.problem);
    const { run, problem } = replayed.value;
    return success(new DrillSession({ run, writing: false, away: false, ...(problem && { broken: problem }) }, parts));
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly state = (): DrillState => this.#state;

  readonly stamp = (): Stamp => this.#parts.stamp();

  /** Resolves to whether the move was made and is on the disk. A move that safety forbids is written too, and told. */
  readonly send = async (move: DrillMove): Promise<boolean> => {
    const { run, writing, broken, away } = this.#state;
    if (writing || broken || away) return false;
    const taken = takeMove(run, move, this.#parts.stamp());
    const trouble: DrillTrouble | undefined = taken.refused && { kind: 'refused', refusal: taken.refused };
    if (!taken.line) {
      this.#show({ ...this.#calm(), ...(trouble && { trouble }) });
      return false;
    }
    this.#show({ ...this.#state, writing: true });
    const written = await this.#parts.store.keep(taken.run.record, taken.run.end !== undefined);
    if (!written.ok) {
      this.#show({ ...this.#calm(), writing: false, trouble: { kind: 'not-stored', problem: written.problem } });
      return false;
    }
    const seen = move.do === 'look' && taken.line.shown !== undefined ? { sign: move.sign, text: taken.line.shown } : undefined;
    this.#show({ run: taken.run, writing: false, away: this.#state.away, ...(seen && { seen }), ...(trouble && { trouble }) });
    return taken.refused === undefined;
  };

  readonly forgetTrouble = (): void => {
    const { trouble, ...rest } = this.#state;
    if (trouble) this.#show(rest);
  };

  readonly goAway = (): void => this.#show({ ...this.#state, away: true });

  /** As it is by now: it may have been taken over while a move was being written. */
  #calm(): Omit<DrillState, 'trouble'> {
    const { trouble: _, ...calm } = this.#state;
    return calm;
  }

  #show(state: DrillState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}
