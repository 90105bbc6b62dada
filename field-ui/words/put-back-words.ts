import type { PutBackItem } from '../../engine/walk/index.ts';
import { turnBackWords } from '../../shared/ui/words/action-words.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';

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
        todo: turnBackWords(plainWords(item.asFound)),
        done: `It is ${plainWords(item.asFound)}`,
        past: `${plainWords(item.setting)} ${plainWords(item.asFound)} again`,
      };
  }
}
