import { quantityKind } from '../../engine/quantity/index.ts';
import { type Action, type FactSpec, type Step, showHold } from '../../engine/tree/index.ts';
import { turnWords } from '../../shared/ui/words/action-words.ts';

/** What each kind of step is called on the desk. */
export const KIND_WORDS: Readonly<Record<Step['kind'], string>> = {
  reading: 'Reading',
  look: 'Look',
  act: 'Act',
  ask: 'Ask',
  finding: 'Finding',
  handoff: 'Handoff',
};

const meterWords = (step: Extract<Step, { kind: 'reading' }>): string => {
  const { label } = quantityKind(step.takes);
  const input = step.input === 'low' ? ', through a low-impedance input' : '';
  if (step.across) return `${label}: red lead on ${step.across[0]}, black on ${step.across[1]}${input}`;
  return step.at === undefined ? `${label}${input}` : `${label} at ${step.at}${input}`;
};

/** One change to the circuit, as an instruction. */
export function actionWords(action: Action): string {
  switch (action.do) {
    case 'turn':
      return turnWords(action.setting, action.state);
    case 'jumper':
      return `Jumper ${action.from} to ${action.to}`;
    case 'remove-jumper':
      return `Remove the jumper ${action.from} to ${action.to}`;
    case 'lift':
      return `Lift the lead ${action.lead}`;
    case 'land':
      return `Land the lead ${action.lead}`;
    case 'prove-meter':
      return 'Prove the meter on a known source';
  }
}

/** What a step has the tech do, a line each. */
export function taskLines(step: Step, facts: Readonly<Record<string, FactSpec>>): readonly string[] {
  switch (step.kind) {
    case 'reading':
      return [meterWords(step)];
    case 'look':
      return step.at === undefined ? [] : [`Look at ${step.at}`];
    case 'act':
      return step.does.map(actionWords);
    case 'ask':
      return [facts[step.fact]?.ask ?? step.fact];
    case 'finding':
      return step.faults.length === 0
        ? ['Nothing wrong found']
        : [`Names the ${step.faults.length === 1 ? 'fault' : 'faults'} ${step.faults.join(', ')}`];
    case 'handoff':
      return [`Stop, and call ${step.to}`];
  }
}

/** What a reading does besides choosing the way on. */
export function readingNotes(step: Step): readonly string[] {
  if (step.kind !== 'reading') return [];
  return [
    ...(step.sets === undefined ? [] : [`The reading becomes the site's ${step.sets}.`]),
    ...(step.proves === 'dead' ? ['The lowest band proves these two points dead.'] : []),
  ];
}

/** Settings that must hold, such as `heat-call on, main-power on`; undefined where none must. */
export const heldText = (step: Step): string | undefined => (step.while.length === 0 ? undefined : step.while.map(showHold).join(', '));

export const minutesText = (minutes: number): string => (minutes === 0 ? 'no time' : `${minutes} min`);
