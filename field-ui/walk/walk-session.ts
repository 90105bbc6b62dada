import {
  answersOf,
  expectedAt,
  type Gauge,
  type LogProblem,
  type Refusal,
  replayLog,
  type Stamp,
  takeEvent,
  viewOf,
  type Walk,
  type WalkableEdition,
  type WalkEvent,
  type WalkEventType,
  type WalkLine,
  type WalkView,
  walkPosition,
} from '../../engine/walk/index.ts';
import type { StoredPhoto } from '../storage/field-db.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import type { WalkStore } from '../storage/walk-store.ts';
import { whenWritten } from './when-written.ts';

/** Why the last thing that was tried did not happen. */
export type Trouble = { readonly kind: 'refused'; readonly refusal: Refusal } | { readonly kind: 'not-stored'; readonly problem: StorageProblem };

/** What the screens of one walk show. Replaced by every move, never changed. */
export type SessionState = {
  readonly walk: Walk;
  readonly view: WalkView;
  /** The events that the walk takes now. */
  readonly expects: ReadonlySet<WalkEventType>;
  /** Labels, choices or `done`, and where each leads. */
  readonly answers: readonly { readonly on: string; readonly leadsTo: string }[];
  /** What the open step measures, where it is a reading or asks for a number. */
  readonly gauge?: Gauge;
  readonly lines: readonly WalkLine[];
  readonly trouble?: Trouble;
  /** A line is being written: nothing can be entered, and nothing is shown as entered. */
  readonly writing: boolean;
  /** The stored log cannot be trusted from here on; the walk is shown as it stood before, and takes nothing. */
  readonly broken?: LogProblem;
  /** The log as it is stored, whatever it holds, where it is broken. */
  readonly stored?: readonly unknown[];
  /** Another tab has taken the walk over, or its page was left. */
  readonly away: boolean;
};

type Parts = {
  readonly store: Pick<WalkStore, 'append'>;
  readonly stamp: () => Stamp;
  /** Told of what the walk did not take. */
  readonly refused?: (event: WalkEvent) => void;
};

/**
 * One walk on the screen. The order is strict: the event is taken (purely), its line is durably written, and only then does the
 * screen move. What the walk refuses, or the device cannot keep, changes nothing and is told.
 */
export class WalkSession {
  readonly #store: Pick<WalkStore, 'append'>;
  readonly #stamp: () => Stamp;
  readonly #refused: Parts['refused'];
  readonly #listeners = new Set<() => void>();
  #state: SessionState;

  constructor(edition: WalkableEdition, stored: readonly unknown[], { store, stamp, refused }: Parts) {
    this.#store = store;
    this.#stamp = stamp;
    this.#refused = refused;
    const { walk, problems, readable } = replayLog(edition, stored);
    const [broken] = problems;
    this.#state = { ...seen(walk), lines: readable, writing: false, away: false, ...(broken && { broken, stored }) };
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly state = (): SessionState => this.#state;

  /** Resolves to whether the event was taken and is on the disk. */
  readonly send = async (event: WalkEvent, photo?: StoredPhoto): Promise<boolean> => {
    // A photo is ready when it is ready, whatever is being written then; a press beside another is one too many.
    while (event.type === 'photographed' && this.#state.writing) await whenWritten(this);
    const { walk, writing, broken, away, lines } = this.#state;
    if (writing || broken || away) return false;
    const taken = takeEvent(walk, event, this.#stamp());
    if (!taken.ok) {
      this.#show({ ...this.#state, trouble: { kind: 'refused', refusal: taken.problem } });
      this.#refused?.(event);
      return false;
    }
    this.#show({ ...this.#state, writing: true });
    const written = await this.#store.append(taken.value.walk, taken.value.line, photo);
    if (!written.ok) {
      this.#show({ ...this.#state, writing: false, trouble: { kind: 'not-stored', problem: written.problem } });
      return false;
    }
    this.#show({ ...seen(taken.value.walk), lines: [...lines, taken.value.line], writing: false, away: this.#state.away });
    return true;
  };

  readonly forgetTrouble = (): void => {
    const { trouble, ...rest } = this.#state;
    if (trouble) this.#show(rest);
  };

  readonly goAway = (): void => this.#show({ ...this.#state, away: true });

  #show(state: SessionState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}

function seen(walk: Walk): Pick<SessionState, 'walk' | 'view' | 'expects' | 'answers' | 'gauge'> {
  const { compiled } = walk.edition;
  const { context, value } = walk.snapshot;
  const position = walkPosition(compiled, value, context);
  const gauge = position.step?.gauge;
  return { walk, view: viewOf(walk), expects: new Set(expectedAt(position, context.paused)), answers: answersOf(walk), ...(gauge && { gauge }) };
}
