import { Counter, collectDefaultMetrics, Histogram, Registry } from 'prom-client';
import type { LineOutcome } from '../../sync/wire/walk-wire.ts';

/** Counts of what the hub does, in the OpenMetrics text format. Names and numbers only: nobody and no call can be told from them. */
export class HubMetrics {
  readonly registry = new Registry();
  readonly #requests = new Counter({
    name: 'hub_requests_total',
    help: 'Requests answered',
    labelNames: ['method', 'route', 'status'],
    registers: [this.registry],
  });
  readonly #seconds = new Histogram({
    name: 'hub_request_seconds',
    help: 'Time to answer',
    labelNames: ['route'],
    buckets: [0.002, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10],
    registers: [this.registry],
  });
  readonly #lines = new Counter({ name: 'hub_lines_total', help: 'Log lines received', labelNames: ['outcome'], registers: [this.registry] });
  readonly #published = new Counter({ name: 'hub_editions_published_total', help: 'Editions published', registers: [this.registry] });

  /** Adds the process's own numbers: memory, time, event loop. */
  withProcess(): this {
    collectDefaultMetrics({ register: this.registry });
    return this;
  }

  answered(method: string, route: string, status: number, milliseconds: number): void {
    this.#requests.inc({ method, route, status: String(status) });
    this.#seconds.observe({ route }, milliseconds / 1000);
  }

  lines(outcomes: readonly LineOutcome[]): void {
    for (const { outcome } of outcomes) this.#lines.inc({ outcome });
  }

  published(): void {
    this.#published.inc();
  }
}
