import { storageWords } from '../storage/storage-words.ts';
import type { RefreshProblem } from './refresh-editions.ts';

/** What came in the way of the crew's list, for the start screen; `no-signal` is no trouble once trees are here. */
export function refreshWords(problem: RefreshProblem): string {
  switch (problem.code) {
    case 'no-signal':
      return 'No signal: the crew’s list could not be looked at. The trees below are the ones from the last visit.';
    case 'service-answered':
      return `The crew’s service could not give its list (answer ${problem.status}). The trees below are the ones from the last visit.`;
    case 'list-not-understood':
      return 'The crew’s service gave a list that this app does not understand. The trees below are the ones from the last visit.';
    case 'not-that-edition':
      return `“${problem.title}” did not arrive as it was published and was not kept. Try again; if it stays, tell whoever looks after the service.`;
    case 'edition-not-fetched':
      return `“${problem.title}” could not be fetched. It will be tried again at the next start.`;
    case 'not-stored': {
      const { happened, todo } = storageWords(problem.storage);
      return `${happened.replace('the entry', 'new trees')} ${todo}`;
    }
  }
}
