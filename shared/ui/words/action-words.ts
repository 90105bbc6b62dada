import type { Action } from '../../../engine/tree/index.ts';
import { plainWords } from './plain-words.ts';

const isSwitch = (state: string): boolean => state === 'on' || state === 'off';

/** Turning a setting, as people say it: `Turn main power off`, but `Set thermostat: heating`. */
export const turnWords = (setting: string, state: string): string => (isSwitch(state) ? `Turn ${setting} ${state}` : `Set ${setting}: ${state}`);

/** Turning a setting that was just named back to how it was found. */
export const turnBackWords = (state: string): string => (isSwitch(state) ? `Turn it ${state}` : `Set it back: ${state}`);

/** What an action is, said to the tech who does it. */
export function actionWords(action: Action): string {
  switch (action.do) {
    case 'turn':
      return turnWords(plainWords(action.setting), plainWords(action.state));
    case 'jumper':
      return `Jumper ${action.from} to ${action.to}`;
    case 'remove-jumper':
      return `Take the jumper off ${action.from} to ${action.to}`;
    case 'lift':
      return `Lift the lead ${plainWords(action.lead)}`;
    case 'land':
      return `Land the lead ${plainWords(action.lead)}`;
    case 'prove-meter':
      return 'Prove the meter on a known live source';
  }
}
