import { QUANTITY_KINDS } from '../quantity/index.ts';
import type { MeterRefusal } from './meter.ts';
import type { Unsolved } from './solution.ts';
import { computeWords, didYouMean, listed, type Words } from './wording.ts';

/** Why an edited bench has no solution, and the way out, in words. */
export function unsolvedWords(unsolved: Unsolved): Words {
  switch (unsolved.reason) {
    case 'chatter':
      return {
        message: `The circuit never settles: ${listed(unsolved.parts)} switch back and forth for ever.`,
        fix: 'Real contacts would chatter. Look for a coil whose own contact takes its supply away, or a pull-in close to the voltage there.',
      };
    case 'no-solution':
      return {
        message: `The circuit has no solution at “${unsolved.node}”: ${unsolved.why}.`,
        fix: 'Look for parts there without resistance, or with values far apart.',
      };
    case 'no-value':
      return {
        message: `“${unsolved.field}” of “${unsolved.part}” has no value here${unsolved.why ? `: ${computeWords(unsolved.why)}` : ''}.`,
        fix: 'Check the facts that it is written with.',
      };
    case 'unknown-name':
      return { message: `The bench has no ${unsolved.what} “${unsolved.name}”.`, fix: outOf(unsolved.name, unsolved.known) };
  }
}

// Of a few, such as the states of a switch, a guess could be the wrong one: name them all.
const FEW = 4;

const outOf = (name: string, known: readonly string[]): string =>
  known.length > 0 && known.length <= FEW ? `It has: ${known.join(', ')}.` : didYouMean(name, known);

/** Why a meter has no number to show, and what to do, in words. */
export function meterRefusalWords(refusal: MeterRefusal): Words {
  switch (refusal.code) {
    case 'circuit-live':
      return {
        message: `${QUANTITY_KINDS[refusal.quantity].label} cannot be read here: the circuit is live from “${refusal.source}”.`,
        fix: 'Turn that source off and prove the points dead first. Ohms on a live circuit are an error, not a number, and can destroy the meter.',
      };
    case 'not-read-here':
      return {
        message: `${QUANTITY_KINDS[refusal.quantity].label} is not read at ${refusal.place}.`,
        fix: refusal.reads.length === 0 ? 'Nothing is read there.' : `What is read there: ${refusal.reads.join(', ')}.`,
      };
    case 'unknown-point':
      return { message: `The bench has no point “${refusal.point}”.`, fix: didYouMean(refusal.point, refusal.known) };
    case 'not-solved':
      return unsolvedWords(refusal.why);
  }
}
