import type { Edition, WalkLine } from '../../engine/walk/index.ts';
import type { SuspectsAnswer, SuspectsRequest } from './suspects-message.ts';
import type { AdviceReport, SuspectsReport } from './suspects-report.ts';

/** What is known of the suspects of a walk by now. What an entry has made old stays until the new answer is there. */
export type SuspectsNow = {
  readonly report?: SuspectsReport;
  readonly advice?: AdviceReport;
  /** Still at it: the suspects, or only what to read next. */
  readonly working: 'suspects' | 'advice' | false;
  /** Why there is no answer; the walk goes on all the same. */
  readonly failed?: string;
};

const AT_IT: SuspectsNow = { working: 'suspects' };

export type SuspectsWorker = Pick<Worker, 'postMessage' | 'terminate'> & {
  addEventListener(type: 'message', listener: (event: MessageEvent<SuspectsAnswer>) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
};

export const newSuspectsWorker = (): SuspectsWorker =>
  new Worker(new URL('./suspects-worker.ts', import.meta.url), { type: 'module', name: 'suspects' });

/**
 * Works the suspects of one walk out beside the screen. An answer to anything but the latest entry is dropped. A worker that does not start,
 * or that fails, is told and nothing else: the walk does not wait for it.
 */
export class SuspectsAside {
  readonly #edition: Edition;
  readonly #id: string;
  readonly #make: () => SuspectsWorker;
  readonly #listeners = new Set<() => void>();
  #worker: SuspectsWorker | undefined;
  #request = 0;
  #lines: readonly WalkLine[] = [];
  #now: SuspectsNow = AT_IT;

  constructor(edition: Edition, id: string, make: () => SuspectsWorker = newSuspectsWorker) {
    this.#edition = edition;
    this.#id = id;
    this.#make = make;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly now = (): SuspectsNow => this.#now;

  /** Asks for the walk as its log stands. */
  readonly read = (lines: readonly WalkLine[]): void => {
    this.#lines = lines;
    this.#request += 1;
    const { failed: _, ...before } = this.#now;
    this.#show({ ...before, working: 'suspects' });
    try {
      this.#worker ??= this.#start();
      this.#tell({ ask: 'walk', request: this.#request, id: this.#id, lines });
    } catch (error) {
      this.#fail(error instanceof Error ? error.message : String(error));
    }
  };

  /** Once more from the start, after a failure. */
  readonly again = (): void => {
    this.end();
    this.read(this.#lines);
  };

  readonly end = (): void => {
    this.#worker?.terminate();
    this.#worker = undefined;
  };

  #start(): SuspectsWorker {
    const worker = this.#make();
    worker.addEventListener('message', ({ data }) => {
      if (worker === this.#worker && data.request === this.#request) this.#take(data);
    });
    worker.addEventListener('error', ({ message }) => {
      if (worker === this.#worker) this.#fail(message || 'the part of the app that works them out did not start');
    });
    worker.postMessage({ ask: 'edition', edition: this.#edition } satisfies SuspectsRequest);
    return worker;
  }

  #tell(message: SuspectsRequest): void {
    this.#worker?.postMessage(message);
  }

  #take(answer: SuspectsAnswer): void {
    switch (answer.stage) {
      case 'suspects': {
        const { report } = answer;
        if (report.benches === 0) this.#show({ report, working: false });
        else this.#show({ ...this.#now, report, working: 'advice' });
        return;
      }
      case 'advice':
        this.#show({ ...this.#now, advice: answer.advice, working: false });
        return;
      case 'failed':
        this.#fail(answer.detail);
    }
  }

  // What was said of an earlier entry is not shown as if it held now.
  #fail(detail: string): void {
    this.end();
    this.#show({ working: false, failed: detail });
  }

  #show(now: SuspectsNow): void {
    this.#now = now;
    for (const listener of this.#listeners) listener();
  }
}
