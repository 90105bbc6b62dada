import type { Edition } from '../edition.ts';
import type { Refusal } from '../refusal.ts';
import { viewOf } from '../view-of.ts';
import { beginWalk, takeEvent, type Walk, type WalkableEdition, walkableEdition } from '../walk.ts';
import type { WalkEvent } from '../walk-event.ts';
import type { WalkLine } from '../walk-line.ts';
import type { WalkView } from '../walk-view.ts';

/** Drives a walk in tests: keeps its log and its refusals, on a clock that ticks a second an event. */
export class WalkDriver {
  readonly edition: WalkableEdition;
  walk: Walk;
  lines: WalkLine[] = [];
  refusals: Refusal[] = [];

  constructor(edition: Edition | WalkableEdition, id = 'walk-1') {
    this.edition = 'machine' in edition ? edition : walkableEdition(edition);
    this.walk = beginWalk(this.edition, id);
  }

  get view(): WalkView {
    return viewOf(this.walk);
  }

  get at(): string {
    return `${this.view.phase} ${this.view.step?.id ?? ''}`.trim();
  }

  send(event: unknown): this {
    const n = this.lines.length;
    const time = new Date(Date.UTC(2026, 0, 15, 9, 0, n)).toISOString();
    const taken = takeEvent(this.walk, event, { time, mono: n * 1000 });
    if (taken.ok) {
      this.walk = taken.value.walk;
      this.lines = [...this.lines, taken.value.line];
    } else this.refusals = [...this.refusals, taken.problem];
    return this;
  }

  /** Sends events that must all be taken. */
  must(...events: WalkEvent[]): this {
    for (const event of events) {
      const before = this.refusals.length;
      this.send(event);
      if (this.refusals.length > before) throw new Error(`${JSON.stringify(event)} refused at ${this.at}: ${JSON.stringify(this.refusals.at(-1))}`);
    }
    return this;
  }

  /** Reads every caution that is shown now. */
  readCautions(): this {
    for (const [caution, { mustRead, read }] of this.view.cautions.entries()) if (mustRead && !read) this.must({ type: 'caution-read', caution });
    return this;
  }

  open(): this {
    return this.must({ type: 'opened' }).readCautions().must({ type: 'went-on' });
  }

  read(typed: string): this {
    return this.readCautions().must({ type: 'read', typed }, { type: 'went-on' });
  }

  look(saw: string): this {
    return this.readCautions().must({ type: 'looked', saw }, { type: 'went-on' });
  }

  act(): this {
    return this.readCautions().must({ type: 'did' });
  }

  tell(fact: string, typed: string): this {
    return this.readCautions().must({ type: 'told', fact, typed }, { type: 'went-on' });
  }

  putAllBack(): this {
    for (const item of this.view.putBack) this.must({ type: 'put-back', item: item.key });
    return this;
  }
}
