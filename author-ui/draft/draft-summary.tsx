import { useEffect, useRef } from 'react';
import { ProblemBrief } from '../proof/problem-brief.tsx';
import type { DraftReport } from './draft-message.ts';

type DraftSummaryProps = { readonly title: string; readonly report: DraftReport; readonly save: () => void; readonly discard: () => void };

const minutes = (value: number): string => `${(Math.round(10 * value) / 10).toFixed(1)} min`;

/** What a draft says of itself, before it is saved. */
export function DraftSummary({ title, report, save, discard }: DraftSummaryProps) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => box.current?.focus(), []);
  const { ambiguous, method, problems } = report;
  const figures: readonly (readonly [name: string, value: string, about: string])[] = [
    [
      'Expected time',
      minutes(report.minutes),
      method === 'exact' ? 'the least there is with the bench’s readings and looks' : 'the best found by rollout; the exact search met its limit',
    ],
    ['Bound', minutes(report.bound), 'no tree over the same readings and looks is below it'],
    ['Steps', String(report.steps), `${report.findings} of them findings`],
    ['Faults told apart', ambiguous.length === 0 ? 'all' : 'not all', ambiguous.length === 0 ? 'each has a finding of its own' : 'see below'],
  ];
  return (
    <section className="draft-summary" aria-labelledby="draft-title" ref={box} tabIndex={-1}>
      <h2 id="draft-title">Draft: {title}</h2>
      <dl>
        {figures.map(([name, value, about]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <strong>{value}</strong> <span>{about}</span>
            </dd>
          </div>
        ))}
      </dl>
      {ambiguous.length > 0 && (
        <div className="draft-ambiguous">
          <p>
            No reading or look of this bench tells these apart. Each group shares a finding that says so; a terminal or a sign more would part them.
          </p>
          <ul>
            {ambiguous.map((group) => (
              <li key={group.join()}>{group.join(' Or: ')}</li>
            ))}
          </ul>
        </div>
      )}
      <p className="draft-note">
        {report.minutesFrom === undefined
          ? 'Minutes are the usual ones, since no tree of yours is about this bench. Put in your own once it is saved.'
          : `Minutes are counted as in your tree “${report.minutesFrom}”.`}{' '}
        {problems.length === 0 ? 'Checked: no problems. Nothing is saved yet.' : 'It is not sound as it stands; what the checks found is below.'}
      </p>
      {problems.length > 0 && (
        <ul className="proof-problems">
          {problems.map((problem) => (
            <ProblemBrief key={`${problem.line} ${problem.column} ${problem.code}`} problem={problem} />
          ))}
        </ul>
      )}
      <div className="draft-moves">
        <button type="button" className="button" onClick={save}>
          Save and open it
        </button>
        <button type="button" className="button button-quiet" onClick={discard}>
          Throw it away
        </button>
      </div>
    </section>
  );
}
