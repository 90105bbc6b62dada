import type { StoredDraft } from '../storage/field-db.ts';

/** After this long without a key, what is typed is kept, ms. */
const KEEP_AFTER_MS = 200;

/** Keeps what is typed and not entered: a moment after the last key, or at once when the page is left before that. */
export class DraftKeeper {
  readonly #keep: (draft: StoredDraft) => Promise<void>;
  #waiting: StoredDraft | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(keep: (draft: StoredDraft) => Promise<void>) {
    this.#keep = keep;
  }

  readonly type = (draft: StoredDraft): void => {
    this.forget();
    this.#waiting = draft;
    this.#timer = setTimeout(() => this.leave(draft.at), KEEP_AFTER_MS);
  };

  /** The page is left while the walk stands at `at`: what was typed elsewhere was entered meanwhile. */
  readonly leave = (at: string | undefined): void => {
    const draft = this.#waiting;
    this.forget();
    if (draft && draft.at === at) void this.#keep(draft);
  };

  /** Its step was left. */
  readonly forget = (): void => {
    clearTimeout(this.#timer);
    this.#waiting = undefined;
  };
}
