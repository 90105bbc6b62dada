import type { Action } from '../../../engine/tree/index.ts';
import { plainWords } from './plain-words.ts';

/** What an action is, said to the tech who does it. */
export function actionWords(action: Action): string {
  switch (action.do) {
    case 'turn':
      return `Turn ${plainWords(action.setting)} ${plainWords(action.state)}`;
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
