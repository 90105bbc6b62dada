import { drillsAddress } from '../desk-route.ts';

/** What an address of the drills asks for: a drill to be prepared, or a result to be shown. */
export type DrillsAsked = {
  readonly tree?: string;
  readonly bench?: string;
  readonly fault?: string;
  /** A given drill, and one run of it. */
  readonly drill?: string;
  readonly run?: string;
};

const KEYS = ['tree', 'bench', 'fault', 'drill', 'run'] as const;

export function drillsAskedIn(query: string): DrillsAsked {
  const values = new URLSearchParams(query);
  return Object.fromEntries(KEYS.flatMap((key) => (values.get(key) ? [[key, values.get(key)]] : [])));
}

/** The drills' page with a drill on this fault made ready, or with a result open. */
export const drillsAddressFor = (asked: DrillsAsked): string => `${drillsAddress}?${new URLSearchParams(asked as Record<string, string>)}`;
