import type { ReactNode } from 'react';
import type { Problem } from '../../engine/problem.ts';
import type { Edition } from '../../engine/walk/index.ts';
import { ProblemBrief } from '../proof/problem-brief.tsx';
import { ProofProgressBar } from '../proof/proof-progress-bar.tsx';
import type { UseProof } from '../proof/use-proof.ts';

/** A tree that was checked and proved and may be published. */
export type ProvedTree = { readonly edition: Edition; readonly hash: string; readonly warnings: readonly Problem[] };

type ProvedProps = {
  readonly proof: UseProof;
  /** What it is compared with is known. */
  readonly isReady: boolean;
  readonly children: (tree: ProvedTree) => ReactNode;
};

/** Shows what publishes a tree once it is checked and proved without an error; until then how that goes and what stands in the way. */
export function Proved({ proof: { run, start, stop }, isReady, children }: ProvedProps) {
  switch (run.state) {
    case 'running':
      return (
        <>
          <p>It is checked and proved before it can be published.</p>
          <ProofProgressBar run={run} stop={stop} />
        </>
      );
    case 'stopped':
    case 'failed':
      return (
        <section className="proof-state">
          <h2>Not checked</h2>
          <p>{run.state === 'failed' ? run.detail : 'The check was stopped.'} Only what was checked and proved is published.</p>
          <button type="button" className="button" onClick={start}>
            Check it
          </button>
        </section>
      );
    case 'not-proved':
      return <Blocked problems={run.problems} why={run.why} />;
    case 'proved': {
      const { problems } = run.report;
      if (problems.some(({ severity }) => severity === 'error')) return <Blocked problems={problems} why={undefined} />;
      if (!isReady) return <p role="status">Looking for the edition before this one…</p>;
      return children({ edition: run.edition, hash: run.hash, warnings: problems });
    }
  }
}

function Blocked({ problems, why }: { readonly problems: readonly Problem[]; readonly why: string | undefined }) {
  const errors = problems.filter(({ severity }) => severity === 'error');
  return (
    <section className="proof-state">
      <h2>{errors.length === 1 ? '1 error stands in the way' : `${errors.length} errors stand in the way`}</h2>
      {why !== undefined && <p>{why}</p>}
      <p>A tree with errors could mislead or hurt who walks it, so it is not published. Put these right:</p>
      <ul className="proof-problems">
        {errors.map((problem) => (
          <ProblemBrief key={`${problem.file} ${problem.line} ${problem.column} ${problem.code} ${problem.message}`} problem={problem} />
        ))}
      </ul>
    </section>
  );
}
