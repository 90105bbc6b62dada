import type { Bench } from '../../../engine/bench/index.ts';
import type { ConfirmRequest } from '../../../shared/sync/wire/review-wire.ts';
import type { Said } from '../source/walk-source.ts';
import { plainName } from '../walk-words.ts';

/** What a trainer has chosen to say of a finding and not said yet. `fault`: bench and fault in one, as a list offers them. */
export type ConfirmChoice = { readonly how: 'held' | 'came-back' | 'other' | undefined; readonly fault: string; readonly note: string };

export const NOTHING_CHOSEN: ConfirmChoice = { how: undefined, fault: '', note: '' };

/** A fault as a list offers it. */
export type FaultOffer = { readonly key: string; readonly bench: string; readonly fault: string; readonly words: string };

/** The faults of an edition's benches, the bench that the site had first. */
export function faultOffers(benches: Readonly<Record<string, Bench>>, first: string | undefined): readonly FaultOffer[] {
  const names = Object.keys(benches).sort((a, b) => Number(b === first) - Number(a === first) || (a < b ? -1 : 1));
  return names.flatMap((bench) =>
    Object.entries(benches[bench]?.faults ?? {}).map(([fault, { says }]) => ({
      key: `${bench}/${fault}`,
      bench,
      fault,
      words: says ?? plainName(fault),
    })),
  );
}

/** What the choice says, or why it says nothing yet. A finding that names one fault and held was that fault. */
export function confirmRequest(
  { how, fault, note }: ConfirmChoice,
  found: readonly string[],
  bench: string | undefined,
): ConfirmRequest | 'choose' | 'choose-fault' {
  const noted = note.trim() === '' ? {} : { note: note.trim() };
  if (how === undefined) return 'choose';
  const [only] = found;
  if (how === 'held') return { held: true, ...(found.length === 1 && only !== undefined && bench !== undefined && { bench, fault: only }), ...noted };
  if (how === 'came-back') return { held: false, ...noted };
  const cut = fault.indexOf('/');
  if (cut < 0) return 'choose-fault';
  return { held: false, bench: fault.slice(0, cut), fault: fault.slice(cut + 1), ...noted };
}

// A bench says its faults in whole sentences; where it says nothing, the name has no stop.
const stopped = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);

/** What was said, in words. */
export function saidWords({ held, fault, bench }: Said, benches: Readonly<Record<string, Bench>>): string {
  const named = fault === undefined ? undefined : ((bench === undefined ? undefined : benches[bench]?.faults[fault]?.says) ?? plainName(fault));
  if (held === undefined) return 'What was said before is taken back.';
  if (held) return named === undefined ? 'It held.' : `It held: ${stopped(named)}`;
  return named === undefined ? 'It came back.' : `It was another fault: ${stopped(named)}`;
}
