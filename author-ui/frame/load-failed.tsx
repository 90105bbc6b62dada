import type { LoadProblem } from '../data/use-shelf.ts';
import { Notice } from './notice.tsx';

function whatHappened(problem: LoadProblem): string {
  switch (problem.code) {
    case 'no-answer':
      return 'The service that keeps the trees does not answer.';
    case 'refused':
      return `The service answered ${problem.path} with ${problem.status}.`;
    case 'not-understood':
      return `The service's answer to ${problem.path} could not be understood. The desk and the service may be of different versions.`;
    case 'reader-failed':
      return `The trees came, but this browser could not read them: ${problem.detail}`;
  }
}

export function LoadFailed({ problem, retry }: { readonly problem: LoadProblem; readonly retry: () => void }) {
  return (
    <Notice title="The trees could not be shown">
      <p>{whatHappened(problem)} The tree files themselves are not touched.</p>
      <p>
        See that <code>npm start</code> is still running in its terminal, then try again.
      </p>
      <button type="button" className="button" onClick={retry}>
        Try again
      </button>
    </Notice>
  );
}
