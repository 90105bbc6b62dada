import type { Gauge, PathEntry } from '../../engine/walk/index.ts';
import { rangeWords } from '../../shared/ui/band-words.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';

const WAYS: Readonly<Record<string, string>> = {
  done: 'done',
  known: 'told',
  cannot: 'could not be done',
  found: 'finding accepted',
  'handed off': 'handed over',
  jumped: 'left for another step',
};

/** The way that was taken, in words: with the numbers of this house where it was a reading. */
export function wayWords(entry: PathEntry, gauge: Pick<Gauge, 'step'> | undefined): string {
  const { on, judged } = entry;
  if (on === undefined) return 'open';
  if (judged && gauge) {
    const band = judged.bands.find((b) => b.on === on);
    if (on === 'open') return 'OL';
    if (band) return rangeWords(band.low, band.high, gauge.step.takes, gauge.step.unit);
  }
  return WAYS[on] ?? plainWords(on);
}
