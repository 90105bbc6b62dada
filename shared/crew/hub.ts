import type { EditionShelf } from './edition-shelf.ts';
import type { HubStore } from './store/open-store.ts';
import type { WalkableEditions } from './store/walkable-editions.ts';
import type { HubMetrics } from './watch/hub-metrics.ts';

/** What the routes of the hub work with. */
export type Hub = {
  readonly store: HubStore;
  /** The time, ISO 8601 in UTC. */
  readonly now: () => string;
  readonly shelf: EditionShelf;
  readonly editions: WalkableEditions;
  readonly metrics: HubMetrics;
  /** The hub's address as its people know it, such as `https://hub.example`; undefined where that of each request is meant. */
  readonly address?: string | undefined;
  readonly limits: HubLimits;
};

/** Requests in a minute: of one device, of an address that has not joined, and of codes tried from one address. */
export type HubLimits = { readonly device: number; readonly stranger: number; readonly codes: number };

export const USUAL_LIMITS: HubLimits = { device: 1_200, stranger: 300, codes: 10 };
