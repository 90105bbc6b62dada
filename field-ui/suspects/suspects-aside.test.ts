import { describe, expect, it } from 'vitest';
import type { Edition } from '../../engine/walk/index.ts';
import { SuspectsAside, type SuspectsWorker } from './suspects-aside.ts';
import type { SuspectsAnswer, SuspectsRequest } from './suspects-message.ts';
import type { AdviceReport, SuspectsReport } from './suspects-report.ts';

const EDITION = {} as Edition;

const report = (found: number, benches = 1): SuspectsReport => ({
  benches,
  possible: [],
  ruledOut: [],
  nothingWrong: 0.03,
  unknown: 0.02,
  excluded: [],
  contradictions: [],
  wirings: [],
  found,
});

const ADVICE: AdviceReport = { suggestions: [], method: 'exact', finding: undefined, left: [] };

/** A worker that answers when the test says so. */
class FakeWorker implements SuspectsWorker {
  readonly asked: SuspectsRequest[] = [];
  ended = false;
  private message: (event: MessageEvent<SuspectsAnswer>) => void = () => undefined;
  private error: (event: { readonly message?: string }) => void = () => undefined;

  postMessage(message: SuspectsRequest): void {
    this.asked.push(message);
  }

  terminate(): void {
    this.ended = true;
  }

  addEventListener(type: 'message' | 'error', listener: never): void {
    if (type === 'message') this.message = listener;
    else this.error = listener;
  }

  answers(data: SuspectsAnswer): void {
    this.message({ data } as MessageEvent<SuspectsAnswer>);
  }

  breaks(message: string): void {
    this.error({ message });
  }
}

function begin(): { readonly aside: SuspectsAside; readonly workers: FakeWorker[] } {
  const workers: FakeWorker[] = [];
  const aside = new SuspectsAside(EDITION, 'walk-1', () => {
    const worker = new FakeWorker();
    workers.push(worker);
    return worker;
  });
  return { aside, workers };
}

describe('suspects worked out aside', () => {
  it('sends the edition once and the log after every entry', () => {
    const { aside, workers } = begin();
    aside.read([]);
    aside.read([]);
    expect(workers).toHaveLength(1);
    expect(workers[0]?.asked.map((message) => (message.ask === 'walk' ? message.request : message.ask))).toEqual(['edition', 1, 2]);
  });

  it('keeps what was said until the new answer is there, and says that it is at it', () => {
    const { aside, workers } = begin();
    aside.read([]);
    expect(aside.now()).toEqual({ working: 'suspects' });
    workers[0]?.answers({ stage: 'suspects', request: 1, report: report(1) });
    expect(aside.now()).toEqual({ report: report(1), working: 'advice' });
    workers[0]?.answers({ stage: 'advice', request: 1, advice: ADVICE });
    expect(aside.now()).toEqual({ report: report(1), advice: ADVICE, working: false });
    aside.read([]);
    expect(aside.now()).toEqual({ report: report(1), advice: ADVICE, working: 'suspects' });
  });

  it('drops an answer to an earlier entry', () => {
    const { aside, workers } = begin();
    aside.read([]);
    aside.read([]);
    workers[0]?.answers({ stage: 'suspects', request: 1, report: report(1) });
    expect(aside.now()).toEqual({ working: 'suspects' });
    workers[0]?.answers({ stage: 'suspects', request: 2, report: report(2) });
    expect(aside.now().report?.found).toBe(2);
  });

  it('is done where there is no bench', () => {
    const { aside, workers } = begin();
    aside.read([]);
    workers[0]?.answers({ stage: 'suspects', request: 1, report: report(0, 0) });
    expect(aside.now().working).toBe(false);
  });

  it.each(['an error of the work', 'an error of the worker'])('tells %s, shows nothing old, and starts anew with the next entry', (kind) => {
    const { aside, workers } = begin();
    aside.read([]);
    workers[0]?.answers({ stage: 'suspects', request: 1, report: report(1) });
    aside.read([]);
    if (kind === 'an error of the work') workers[0]?.answers({ stage: 'failed', request: 2, detail: 'no' });
    else workers[0]?.breaks('no');
    expect(aside.now()).toEqual({ working: false, failed: 'no' });
    expect(workers[0]?.ended).toBe(true);
    aside.read([]);
    expect(workers).toHaveLength(2);
    workers[0]?.answers({ stage: 'suspects', request: 3, report: report(7) });
    expect(aside.now()).toEqual({ working: 'suspects' });
    workers[1]?.answers({ stage: 'suspects', request: 3, report: report(3) });
    expect(aside.now().report?.found).toBe(3);
  });

  it('tells a worker that cannot be made', () => {
    const aside = new SuspectsAside(EDITION, 'walk-1', () => {
      throw new Error('no workers here');
    });
    aside.read([]);
    expect(aside.now()).toEqual({ working: false, failed: 'no workers here' });
  });

  it('tells those who listen', () => {
    const { aside, workers } = begin();
    let told = 0;
    const leave = aside.subscribe(() => {
      told += 1;
    });
    aside.read([]);
    workers[0]?.answers({ stage: 'suspects', request: 1, report: report(1) });
    leave();
    workers[0]?.answers({ stage: 'advice', request: 1, advice: ADVICE });
    expect(told).toBe(2);
  });
});
