import { showQuantity } from '../../quantity/index.ts';
import { probeWords } from '../observe/probe.ts';
import type { Evidence } from './evidence.ts';
import type { Contradiction } from './suspects.ts';

/** What was found, in words: `AC volts R to C: 14 V`, `look: valve clicks: no`. */
export function evidenceWords({ probe, found, typed }: Evidence): string {
  if (probe.kind === 'look') return `${probeWords(probe)}: ${typed ?? (found === 1 ? 'yes' : 'no')}`;
  return `${probeWords(probe)}: ${found === Number.POSITIVE_INFINITY ? 'OL' : showQuantity(found, probe.takes)}`;
}

/** What does not fit, and the way out. */
export function contradictionWords({ code, evidence, favourite }: Contradiction): { readonly message: string; readonly fix: string } {
  const found = evidenceWords(evidence);
  if (code === 'nothing-predicts')
    return {
      message: `${found}. No fault that this bench knows gives that.`,
      fix: 'Read it once more. If it stays so, something is there that the bench does not know: call before changing a part.',
    };
  return {
    message: `${found}. That does not fit ${favourite === undefined ? 'what was found before' : `${favourite.replaceAll('-', ' ')}, which everything else speaks for`}.`,
    fix: 'Read it once more, and the one that it contradicts. If both stay so, there may be two faults, or one that the bench does not know.',
  };
}
