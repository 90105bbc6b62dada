import type { WalkEventType } from '../walk/index.ts';

/** What a chart says of itself. */
export const chartWords = {
  limits:
    'Not in this chart: that each caution was read, the safety rules of the circuit, how close a reading is to a band’s edge, and notes, photos and pauses. Readings are in SI units. Work to local codes, the maker’s instructions and your licence.',
} as const;

/** The name of what is done around the steps of a walk. */
export const RITUAL_NAMES: Partial<Readonly<Record<WalkEventType, string>>> = {
  opened: 'Call opened',
  repaired: 'Repair told',
  'put-back': 'Put back',
  rechecked: 'Recheck',
  closed: 'Call closed',
};

export const xapiWords = {
  unnamed: 'not named',
  walk: (title: string): string => `A call walked with “${title}”`,
} as const;

/** The columns of the CSV tables, in their order. */
export const EVENT_COLUMNS = [
  'walk',
  'seq',
  'time',
  'minutes since the line before',
  'by',
  'edition',
  'tree',
  'step',
  'title',
  'event',
  'way on',
  'typed',
  'value (SI)',
  'unit typed',
  'margin (SI)',
  'too close to call',
  'detail',
  'trusted',
] as const;

export const WALK_COLUMNS = [
  'walk',
  'by',
  'site',
  'drill',
  'edition',
  'tree',
  'title',
  'opened',
  'last line',
  'minutes',
  'lines',
  'steps',
  'finding',
  'outcome',
  'trusted lines',
] as const;
