import type { Action, SettingHold } from '../../engine/tree/index.ts';
import type { PutBackItem } from '../../engine/walk/index.ts';
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

/** A setting and its state: `heat call on`. */
export const holdWords = ({ setting, state }: SettingHold): string => `${plainWords(setting)} ${plainWords(state)}`;

/** What is still in place, and what puts it back. */
export function putBackWords(item: PutBackItem): { readonly now: string; readonly todo: string; readonly done: string; readonly past: string } {
  switch (item.kind) {
    case 'jumper':
      return {
        now: `Jumper on ${item.from} to ${item.to}`,
        todo: 'Take it off',
        done: 'Jumper is off',
        past: `Jumper on ${item.from} to ${item.to} taken off`,
      };
    case 'lifted':
      return {
        now: `Lead ${plainWords(item.lead)} is lifted`,
        todo: 'Land it',
        done: 'Lead is landed',
        past: `Lead ${plainWords(item.lead)} landed again`,
      };
    case 'setting':
      return {
        now: `${plainWords(item.setting)} is ${plainWords(item.now)}`,
        todo: `Turn it ${plainWords(item.asFound)}`,
        done: `It is ${plainWords(item.asFound)}`,
        past: `${plainWords(item.setting)} turned ${plainWords(item.asFound)} again`,
      };
  }
}
