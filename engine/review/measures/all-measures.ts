import type { MeasureCode } from '../walk-review.ts';
import { notRechecked, putBackLate } from './closing-measures.ts';
import { fastCautions } from './fast-cautions.ts';
import type { MeasureOf } from './measure-ground.ts';
import { acceptedTooClose, couldNots, minutes, skipped } from './order-measures.ts';
import { premature, redundant, streak } from './reading-measures.ts';
import { regret } from './regret.ts';

/** Every measure, in the order in which they are shown. */
export const MEASURES_IN_ORDER: readonly { readonly code: MeasureCode; readonly of: MeasureOf }[] = [
  { code: 'minutes', of: minutes },
  { code: 'regret', of: regret },
  { code: 'redundant', of: redundant },
  { code: 'premature', of: premature },
  { code: 'streak', of: streak },
  { code: 'skipped', of: skipped },
  { code: 'fast-caution', of: fastCautions },
  { code: 'accepted-too-close', of: acceptedTooClose },
  { code: 'could-not', of: couldNots },
  { code: 'not-rechecked', of: notRechecked },
  { code: 'put-back-late', of: putBackLate },
];
