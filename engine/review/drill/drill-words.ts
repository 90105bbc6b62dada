import type { MeterReading } from '../../bench/index.ts';
import { typedValueWords } from '../../quantity/index.ts';
import { concernWords, refusalWords } from '../../walk/index.ts';
import type { DrillProblem } from './drill-ground.ts';
import type { DrillRefusal } from './drill-refusal.ts';
import type { ProbeShown } from './hidden-circuit.ts';
import type { RecordProblem } from './replay-drill.ts';

type Words = { readonly message: string; readonly fix: string };

const listed = (names: readonly string[]): string => names.join(', ') || 'none';

/** What a display or a sign shows, as the record keeps it. */
export function shownText(shown: ProbeShown): string {
  if (shown.kind === 'look') return shown.seen ? 'yes' : 'no';
  if (shown.kind === 'unsteady') return 'does not stand still';
  const { reading } = shown;
  return reading.ok ? readingText(reading) : 'no reading';
}

const readingText = ({ shown }: MeterReading): string => shown;

export function drillRefusalWords(refusal: DrillRefusal): Words {
  switch (refusal.code) {
    case 'unsafe':
      return concernWords(refusal.concern);
    case 'walk':
      return refusalWords(refusal.refusal);
    case 'ended':
      return { message: 'This drill has ended; it takes no more moves.', fix: 'Begin another one.' };
    case 'not-a-move':
      return { message: `That is not a move of a drill (${refusal.detail}).`, fix: 'Choose one of the moves on the screen.' };
    case 'unknown':
      return { message: `This circuit has no ${refusal.what} “${refusal.name}”.`, fix: `It has: ${listed(refusal.known)}.` };
    case 'same-point':
      return { message: `Both ends are on ${refusal.point}.`, fix: 'Choose two points.' };
    case 'already':
      return { message: 'That is so already.', fix: 'Nothing was changed.' };
    case 'not-read-here':
      return { message: `The meter does not read that at “${refusal.place}”.`, fix: `What is read there: ${listed(refusal.reads)}.` };
    case 'tree-order':
      return { message: 'This drill goes by the tree.', fix: 'Change the circuit only where a step says so; the meter and your eyes are free.' };
    case 'free-order':
      return { message: 'This drill has no steps to follow.', fix: 'Choose your own next move.' };
    case 'not-on-the-display':
      return {
        message: `“${refusal.typed}” is not what the meter shows.`,
        fix: 'Set the dial, put both leads where the step says, and enter what stands on the display.',
      };
    case 'too-long':
      return { message: `A drill holds ${refusal.most} moves, and this one has them.`, fix: 'Say what is wrong with the circuit, or give up.' };
  }
}

export function drillProblemWords(problem: DrillProblem): Words {
  const again = 'Ask whoever gave the drill to make it again.';
  switch (problem.code) {
    case 'other-edition':
      return {
        message: 'The drill was made for another edition of the tree.',
        fix: 'Get the edition it was made for; it comes with the crew’s list.',
      };
    case 'unknown-tree':
      return { message: `The edition is of another tree than “${problem.tree}”: ${listed(problem.known)}.`, fix: again };
    case 'unknown-bench':
      return { message: `The edition has no bench “${problem.bench}”.`, fix: `It has: ${listed(problem.known)}. ${again}` };
    case 'unknown-fault':
      return { message: `The bench has no fault “${problem.fault}”.`, fix: `It has: ${listed(problem.known)}. ${again}` };
    case 'unknown-fact':
      return { message: `There is no fact “${problem.fact}”.`, fix: `There are: ${listed(problem.known)}.` };
    case 'unknown-choice':
      return { message: `“${problem.got}” is not a choice for ${problem.fact}.`, fix: `Choose one of: ${listed(problem.known)}.` };
    case 'fact-outside':
      return {
        message: `“${problem.typed}” for ${problem.fact} lies outside what the circuit is made for.`,
        fix: `Take a value from ${problem.from} to ${problem.to}.`,
      };
    case 'fact-not-readable':
      return typedValueWords(problem.problem);
  }
}

export function recordProblemWords(problem: RecordProblem): Words {
  switch (problem.code) {
    case 'not-a-record':
      return { message: `That is not the record of a drill (${problem.detail}).`, fix: 'Choose the file that was saved at the end of a drill.' };
    case 'not-startable':
      return drillProblemWords(problem.problem);
    case 'played-otherwise':
      return {
        message: `Move ${problem.line + 1} comes out otherwise than the record says.`,
        fix: 'It is shown up to that move; the record was changed, or the circuit is computed otherwise now.',
      };
  }
}
