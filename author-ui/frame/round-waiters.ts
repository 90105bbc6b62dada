/** Who waits for which round of a question. */
export class RoundWaiters {
  #round = 0;
  #waiting: readonly { readonly round: number; readonly done: () => void }[] = [];

  /** Begins another round; `answered` resolves when it, or one after it, is. */
  begin(): { readonly round: number; readonly answered: Promise<void> } {
    this.#round += 1;
    const round = this.#round;
    const answered = new Promise<void>((done) => {
      this.#waiting = [...this.#waiting, { round, done }];
    });
    return { round, answered };
  }

  /** An answer to a former round may still come in after another was begun: it is not what that one waits for. */
  answered(round: number): void {
    const done = this.#waiting.filter((one) => one.round <= round);
    this.#waiting = this.#waiting.filter((one) => one.round > round);
    for (const one of done) one.done();
  }
}
