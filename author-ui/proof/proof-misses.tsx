import { ProblemBrief } from './problem-brief.tsx';
import type { CaseAsked } from './proof-message.ts';
import type { ProofReport, ReportedMiss } from './proof-report.ts';

const REASONS: Readonly<Record<NonNullable<ReportedMiss['reason']>, string>> = {
  'fooled-by-stray-voltage': 'stray voltage was read as supply',
  'fooled-by-parallel-path': 'ohms were read through a parallel path',
  'too-close-to-call': 'the reading is too close to the edge of a band',
};

type ProofMissesProps = { readonly report: ProofReport; readonly ask: (which: CaseAsked) => void };

/** What can hurt someone, then what is missed or misnamed: each with the path that shows it. */
export function ProofMisses({ report, ask }: ProofMissesProps) {
  const { safety, misses, ends } = report;
  const wasted = report.problems.filter(({ code }) => code === 'wasted-step');
  const titleOf = (key: string): string => ends.find((end) => end.key === key)?.title ?? key;
  return (
    <>
      {safety.length > 0 && (
        <section className="proof-findings" aria-labelledby="safety-title">
          <h2 id="safety-title">Could hurt someone: {safety.length}</h2>
          <ul className="proof-problems">
            {safety.map((problem) => (
              <ProblemBrief key={`${problem.file} ${problem.line} ${problem.column} ${problem.code} ${problem.message}`} problem={problem} />
            ))}
          </ul>
        </section>
      )}
      {misses.length > 0 && (
        <section className="proof-findings" aria-labelledby="misses-title">
          <h2 id="misses-title">Missed or misnamed: {misses.length}</h2>
          <ul className="proof-misses">
            {misses.map((miss) => (
              <li key={`${miss.bench} ${miss.fault} ${miss.end}`}>
                <p>
                  <strong>{miss.fault ?? 'Nothing wrong'}</strong> on {miss.bench} ends at <strong>{titleOf(miss.end)}</strong>
                  {miss.alone ? '' : ' in some cases'}
                  {miss.reason && `: ${REASONS[miss.reason]}`}.
                </p>
                <p className="problem-path">{miss.path.join(' → ')}</p>
                <button type="button" className="button button-quiet" onClick={() => ask({ bench: miss.bench, fault: miss.fault, end: miss.end })}>
                  Replay it
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {wasted.length > 0 && (
        <details className="proof-findings">
          <summary>Steps that never divide anything: {wasted.length}</summary>
          <ul className="proof-problems">
            {wasted.map((problem) => (
              <ProblemBrief key={`${problem.file} ${problem.line} ${problem.code}`} problem={problem} />
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
