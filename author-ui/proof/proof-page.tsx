import type { ReactNode } from 'react';
import { treeAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { treePath } from '../store/desk-file.ts';
import { useDeskFile } from '../store/use-desk-store.ts';
import { ProblemBrief } from './problem-brief.tsx';
import { ProofMatrix } from './proof-matrix.tsx';
import { ProofMinutes } from './proof-minutes.tsx';
import { ProofMisses } from './proof-misses.tsx';
import { ProofProgressBar } from './proof-progress-bar.tsx';
import { ProofRates } from './proof-rates.tsx';
import { ReplayView } from './replay-view.tsx';
import { TreePages } from './tree-pages.tsx';
import { type UseProof, useProof } from './use-proof.ts';

/** What the benches show a tree to isolate, to miss and to endanger. */
export function ProofPage({ name }: { readonly name: string }) {
  const file = useDeskFile(treePath(name));
  useTitle(`Proof of ${name}`);
  if (!file) {
    return (
      <Notice title="There is no such tree">
        <p>
          The desk has no <code>{name}.tree.mdx</code>. It may have been renamed.
        </p>
        <a className="button" href="#/">
          Go to the shelf
        </a>
      </Notice>
    );
  }
  return <Proof key={name} name={name} />;
}

function Proof({ name }: { readonly name: string }) {
  const proof = useProof(name);
  const { run, stale, start } = proof;
  return (
    <article className="proof">
      <header className="proof-head">
        <h1>{run.state === 'proved' ? run.report.title : name}</h1>
        <TreePages name={name} at="proof" />
      </header>
      {stale && run.state !== 'running' && (
        <p className="proof-stale" role="status">
          A file has changed since this was proved.{' '}
          <button type="button" className="button" onClick={start}>
            Prove again
          </button>
        </p>
      )}
      <RunBody name={name} proof={proof} />
    </article>
  );
}

function RunBody({ name, proof }: { readonly name: string; readonly proof: UseProof }): ReactNode {
  const { run, start, stop } = proof;
  switch (run.state) {
    case 'running':
      return <ProofProgressBar run={run} stop={stop} />;
    case 'stopped':
      return (
        <section className="proof-state">
          <h2>Stopped</h2>
          <p>
            {run.of > 0 ? `${run.done} of ${run.of} faults were walked.` : 'No fault was walked yet.'} Nothing is claimed of the tree until all are.
          </p>
          <button type="button" className="button" onClick={start}>
            Prove it
          </button>
        </section>
      );
    case 'failed':
      return (
        <section className="proof-state" role="alert">
          <h2>The proof did not run</h2>
          <p>{run.detail} The tree and its benches are as they were.</p>
          <button type="button" className="button" onClick={start}>
            Try again
          </button>
        </section>
      );
    case 'not-proved': {
      const errors = run.problems.filter(({ severity }) => severity === 'error');
      return (
        <section className="proof-state">
          <h2>Not proved: {errors.length === 1 ? '1 error' : `${errors.length} errors`} first</h2>
          <p>{run.why ?? 'What a tree or a bench with errors would do cannot be told. Put these right, and it is proved here.'}</p>
          <ul className="proof-problems">
            {errors.map((problem) => (
              <ProblemBrief key={`${problem.file} ${problem.line} ${problem.column} ${problem.code} ${problem.message}`} problem={problem} />
            ))}
          </ul>
          <p>
            <a className="button" href={treeAddress(name)}>
              Open the tree
            </a>
          </p>
        </section>
      );
    }
    case 'proved':
      return (
        <>
          <ProofRates report={run.report} />
          <ProofMinutes key={run.hash} report={run.report} edition={run.edition} />
          {proof.replay && <ReplayView report={run.report} asked={proof.replay} close={proof.closeReplay} />}
          <ProofMisses report={run.report} ask={proof.ask} />
          <ProofMatrix report={run.report} shown={proof.replay?.which} ask={proof.ask} />
        </>
      );
  }
}
