import { beginDrill, type DrillGround, type DrillMove, type DrillRefusal, type DrillRun, takeMove } from '../../engine/review/index.ts';

/** Makes moves on a clock that ticks half a minute a move, and keeps what was seen and refused. */
export class DrillDriver {
  run: DrillRun;
  refusals: (DrillRefusal | undefined)[] = [];
  shown: (string | undefined)[] = [];
  #tick = 0;

  constructor(ground: DrillGround, id = 'run-1') {
    this.run = beginDrill(ground, id, this.#stamp());
  }

  #stamp() {
    const n = this.#tick++;
    return { time: new Date(Date.UTC(2026, 0, 15, 9, 0, n * 30)).toISOString(), mono: n * 30_000 };
  }

  send(...moves: unknown[]): this {
    for (const move of moves) {
      const taken = takeMove(this.run, move, this.#stamp());
      this.run = taken.run;
      this.refusals.push(taken.refused);
      this.shown.push(taken.line?.shown);
    }
    return this;
  }

  /** Moves that must all be taken. */
  must(...moves: DrillMove[]): this {
    for (const move of moves) {
      this.send(move);
      const refused = this.refusals.at(-1);
      if (refused) throw new Error(`${JSON.stringify(move)}: ${JSON.stringify(refused)}`);
    }
    return this;
  }

  get last(): string | undefined {
    return this.shown.at(-1);
  }
  get refused(): DrillRefusal | undefined {
    return this.refusals.at(-1);
  }
}
