import { quantityKind } from '../../engine/quantity/index.ts';
import type { SettingHold, Step } from '../../engine/tree/index.ts';
import type { FactState } from '../../engine/walk/index.ts';
import { actionWords } from '../../shared/ui/words/action-words.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';

/** What a step asks of the tech, in one line. */
export function taskWords(step: Step, facts: readonly FactState[]): string {
  switch (step.kind) {
    case 'reading': {
      const meter = `${quantityKind(step.takes).meter}${step.input === 'low' ? ', low-impedance input' : ''}`;
      return step.at === undefined ? meter : `${meter}, ${plainWords(step.at)}`;
    }
    case 'look':
      return step.at === undefined ? 'Look, listen, feel' : `Look at ${step.at}`;
    case 'act':
      return step.does.length === 0 ? 'Do what stands below' : step.does.map(actionWords).join('. ');
    case 'ask':
      return facts.find((fact) => fact.name === step.fact)?.spec.ask ?? 'Tell what you find';
    case 'finding':
      return step.faults.length === 0 ? 'Nothing wrong found' : 'Found';
    case 'handoff':
      return `Stop here. Call ${step.to}`;
  }
}

/** The leads of a reading in words, for speech. */
export const leadWords = (step: Step): string =>
  step.kind === 'reading' && step.across ? `Red lead on ${step.across[0]}, black lead on ${step.across[1]}.` : '';

/** A setting and its state: `heat call on`. */
export const holdWords = ({ setting, state }: SettingHold): string => `${plainWords(setting)} ${plainWords(state)}`;
