import { logProblemWords } from '../../engine/walk/index.ts';
import { storageWords } from '../storage/storage-words.ts';
import type { ImportProblem } from './import-log.ts';

const NOTHING = 'Nothing on this device was changed.';

export function importWords(problem: ImportProblem): string {
  switch (problem.code) {
    case 'no-lines':
      return `The file is empty. ${NOTHING} Choose a .walk.jsonl file that was saved from a call.`;
    case 'not-a-log':
      return `The file is not the log of a call: its first line cannot be read as one. ${NOTHING} Choose a .walk.jsonl file.`;
    case 'edition-missing':
      return `The call was walked on an edition that is not on this device (${problem.edition.slice(0, 12)}). ${NOTHING} Connect once, so that the crew’s trees are fetched, and try again.`;
    case 'not-trusted':
      return `${logProblemWords(problem.problem).message} ${NOTHING} The file is as it was; ask for the log again from the phone it was saved on.`;
    case 'other-here':
      return `This call is on the device already and differs from the file from line ${problem.line + 1} on. ${NOTHING}`;
    case 'not-stored': {
      const { happened, todo } = storageWords(problem.problem);
      return `${happened} ${NOTHING} ${todo}`;
    }
  }
}
