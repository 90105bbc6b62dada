import { formulaWords, type Words } from '../formula/index.ts';
import { typedValueWords } from '../quantity/index.ts';
import { showHold } from '../tree/index.ts';
import { putBackText } from './circuit-state.ts';
import type { Refusal } from './refusal.ts';
import type { LogProblem } from './replay-log.ts';
import type { SafetyConcern } from './safety-model.ts';

// What each event is called when the tech is told what can be done instead.
const EVENTS: Readonly<Record<string, string>> = {
  opened: 'open the walk',
  told: 'tell the fact',
  'caution-read': 'read the caution',
  read: 'enter the reading',
  looked: 'say what you see',
  did: 'do what the step says',
  'could-not': 'say that it cannot be done',
  'went-on': 'go on',
  'stepped-back': 'step back',
  found: 'accept the finding',
  repaired: 'say whether it is repaired',
  'put-back': 'put back what is still in place',
  rechecked: 'try the complaint again',
  closed: 'close the walk',
  resumed: 'resume the walk',
};

const eventWords = (events: readonly string[]): string =>
  events
    .flatMap((event) => EVENTS[event] ?? [])
    .slice(0, 3)
    .join(', or ') || 'nothing more';

/** Why the walk did not take something, and what to do, in words for the tech. */
export function refusalWords(refusal: Refusal): Words {
  switch (refusal.code) {
    case 'not-now':
      return { message: `That cannot be done at this point (${refusal.phase}).`, fix: `What can be done now: ${eventWords(refusal.expects)}.` };
    case 'cautions-first':
      return {
        message: `${refusal.left === 1 ? 'One caution is' : `${refusal.left} cautions are`} not read yet.`,
        fix: 'Read and acknowledge each one; then the step opens.',
      };
    case 'not-readable':
      return typedValueWords(refusal.problem);
    case 'no-such-way':
      return { message: `“${refusal.got}” is not one of the answers of this step.`, fix: `Choose one of: ${refusal.known.join(', ')}.` };
    case 'no-band':
      return {
        message: `This tree says nothing for a reading of “${refusal.typed}”.`,
        fix: 'Check the dial and the leads and read again. If it stays, say that the step cannot be done.',
      };
    case 'band-not-computable': {
      const why = formulaWords(refusal.problem);
      return { message: `The band “${refusal.on}” has no number for this house. ${why.message}`, fix: why.fix };
    }
    case 'setting-not-held':
      return { message: `This step needs ${refusal.holds.map(showHold).join(' and ')}.`, fix: 'Set it so first, then go on.' };
    case 'still-in-place':
      return {
        message: `Still in place: ${refusal.items.map((item) => putBackText(item)).join('; ')} is not done.`,
        fix: 'Put each one back and mark it; then the walk can be closed.',
      };
    case 'not-in-place':
      return { message: `“${refusal.item}” is not on the put-back list.`, fix: 'Look at the list again; it may be put back already.' };
    case 'unknown-fact':
      return { message: `This tree asks for no fact “${refusal.fact}”.`, fix: `It asks for: ${refusal.known.join(', ') || 'none'}.` };
    case 'unknown-choice':
      return { message: `“${refusal.got}” is not a choice for ${refusal.fact}.`, fix: `Choose one of: ${refusal.known.join(', ')}.` };
    case 'unknown-step':
      return { message: `There is no step “${refusal.step}” to go to.`, fix: 'Choose a step of the path, or of the tree.' };
    case 'not-an-act':
      return {
        message: `“${refusal.text}” is not called for now.`,
        fix: 'Only what this step needs set can be set here; other changes come with their own step.',
      };
    case 'no-recheck':
      return {
        message: 'This tree does not say how the complaint is tried again.',
        fix: 'Its writer has to name the recheck step; close the call by hand.',
      };
    case 'not-rechecked':
      return { message: 'The complaint has not been tried again.', fix: 'Try it, and say what happens.' };
    case 'unsafe':
      return concernWords(refusal.concern);
    case 'paused':
      return { message: 'The walk is paused.', fix: 'Resume it first.' };
    case 'closed':
      return { message: 'This walk is closed; its log takes no more.', fix: 'Open a new walk for a new call.' };
    case 'not-opened':
      return { message: 'The walk has not been opened.', fix: 'Open it first.' };
    case 'not-an-event':
      return { message: `That is not an event of a walk (${refusal.detail}).`, fix: 'See README.md for the events and what each carries.' };
  }
}

const PROVE_DEAD = 'Turn the power off and prove it dead first: meter on a known source, on these points, on the known source again.';

/** What must not be done to the circuit as it stands, and what to do first. */
export function concernWords(concern: SafetyConcern): Words {
  switch (concern.code) {
    case 'resistance-while-live':
      return { message: `${concern.points.join(' and ')} are live from ${concern.source}: no ohms reading here.`, fix: PROVE_DEAD };
    case 'touched-while-live':
      return { message: `“${concern.action}” would touch ${concern.point}, which is live from ${concern.source}.`, fix: PROVE_DEAD };
    case 'not-proved-dead':
      return {
        message: `${concern.points.join(' and ')} are not proved dead: they could be live from ${concern.source} (${concern.when}).`,
        fix: PROVE_DEAD,
      };
    case 'meter-not-proved':
      return {
        message: `${concern.points.join(' and ')} read dead, but the meter was not tried on a known source ${concern.when} that reading.`,
        fix: 'Try the meter on a known live source, read these points again, and try the meter once more.',
      };
    case 'safety-bypassed':
      return {
        message: `“${concern.action}” takes ${concern.part} out of the circuit while what it guards can run.`,
        fix: 'Never bridge a safety. Read the volts across it instead.',
      };
  }
}

/** What is wrong with a log, and what can still be done with it. */
export function logProblemWords(problem: LogProblem): Words {
  const at = `Line ${problem.line + 1}`;
  const kept = 'The walk is shown as it stood before that line; the lines after it are kept and can be read, not trusted.';
  switch (problem.code) {
    case 'not-a-line':
      return { message: `${at} is not a line of a walk's log (${problem.detail}).`, fix: kept };
    case 'line-changed':
      return { message: `${at} was changed after it was written: it does not match its own hash.`, fix: kept };
    case 'chain-broken':
      return { message: `${at} does not follow from the line before it: one of the two was replaced.`, fix: kept };
    case 'seq-gap':
      return { message: `${at} has number ${problem.got} where ${problem.expected} was due: lines are missing or out of order.`, fix: kept };
    case 'other-walk':
      return { message: `${at} belongs to walk ${problem.got}, not ${problem.expected}.`, fix: kept };
    case 'other-edition':
      return {
        message: `${at} was walked on edition ${problem.got.slice(0, 12)}, not on ${problem.expected.slice(0, 12)}.`,
        fix: 'Replay it with the edition it was walked on.',
      };
    case 'refused':
      return { message: `${at} could not have happened there. ${refusalWords(problem.refusal).message}`, fix: kept };
    case 'judged-otherwise':
      return { message: `${at} carries a verdict that this edition does not give.`, fix: kept };
  }
}
