import type { Edition } from '../../engine/walk/index.ts';
import { editAddress } from '../desk-route.ts';
import type { CostlyStep, MinutesReport } from './minutes-report.ts';
import type { ProofReport } from './proof-report.ts';
import { useMinutes } from './use-minutes.ts';

type ProofMinutesProps = { readonly report: ProofReport; readonly edition: Edition };

const tenths = (minutes: number): string => (Math.round(10 * minutes) / 10).toFixed(1);
const hundredths = (minutes: number): string => (Math.round(100 * minutes) / 100).toFixed(2);
const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** What the tree takes beside the best order known, and the steps that cost it. */
export function ProofMinutes({ report, edition }: ProofMinutesProps) {
  const { run, start, stop } = useMinutes(edition);
  if (Object.keys(report.minutesByBench).length === 0) return null;
  return (
    <section className="proof-minutes" aria-labelledby="minutes-title">
      <h2 id="minutes-title">Minutes to the finding</h2>
      {run.state === 'running' && (
        <div className="proof-minutes-wait">
          <p role="status">
            Your tree takes {tenths(report.expectedMinutes)} min. Looking for the best order
            {run.of > 1 ? `, bench ${Math.min(run.done + 1, run.of)} of ${run.of}` : ''}…
          </p>
          <progress aria-label="Best order" {...(run.of > 1 ? { value: run.done, max: run.of } : {})} />
          <button type="button" className="button button-quiet" onClick={stop}>
            Stop looking
          </button>
        </div>
      )}
      {run.state === 'stopped' && (
        <p>
          Your tree takes {tenths(report.expectedMinutes)} min. The best order was not looked for to the end.{' '}
          <button type="button" className="button button-quiet" onClick={start}>
            Look for it
          </button>
        </p>
      )}
      {run.state === 'failed' && (
        <p role="alert">
          The best order could not be looked for: {run.detail} The proof stands as it is.{' '}
          <button type="button" className="button button-quiet" onClick={start}>
            Try again
          </button>
        </p>
      )}
      {run.state === 'done' && <Compared report={report} minutes={run.report} />}
    </section>
  );
}

function Compared({ report, minutes }: { readonly report: ProofReport; readonly minutes: MinutesReport }) {
  const { expectedMinutes: own, faults } = report;
  const missed = faults.filter(({ right }) => !right).length;
  // What a tree that misses nothing takes is known to be possible, whatever the search left out.
  const best = missed === 0 ? Math.min(minutes.best, own) : minutes.best;
  const { costly, rest } = minutes;
  return (
    <>
      <p className="proof-minutes-sum" role="status">
        Your tree <strong>{tenths(own)} min</strong>, best known <strong>{tenths(best)}</strong>, bound{' '}
        <strong>{tenths(Math.min(minutes.bound, best))}</strong>
      </p>
      <p className="proof-minutes-about">
        {minutes.method === 'exact'
          ? 'The best known is the least there is with the readings and looks that the benches allow, found by exact search.'
          : 'The best known was found by rollout: there may be a better one, but none below the bound.'}{' '}
        All count with the tree's own minutes and with the wiring known.
        {missed > 0 && ` The tree ends wrong on ${missed === 1 ? 'one fault' : `${missed} faults`}, so its minutes are not to be praised yet.`}
      </p>
      {costly.length === 0 ? (
        <p>No step of the tree loses as much as three seconds a call.</p>
      ) : (
        <>
          <h3 id="costly-title">Steps that cost it</h3>
          <p className="proof-minutes-about">
            Lost at a step: how much longer the call takes because this step comes next and not the best one, even if all after it were best. Minutes
            a call on average, faults by weight; getting ready counts.
          </p>
          <table className="costly" aria-labelledby="costly-title">
            <thead>
              <tr>
                <th scope="col">Step</th>
                <th scope="col" className="number">
                  Lost
                </th>
                <th scope="col" className="number">
                  Spent
                </th>
                <th scope="col" className="number">
                  Calls
                </th>
                <th scope="col">Best next from there</th>
              </tr>
            </thead>
            <tbody>
              {costly.map((step) => (
                <CostlyRow key={`${step.tree} ${step.step}`} step={step} most={costly[0]?.lost ?? step.lost} />
              ))}
            </tbody>
          </table>
          {rest.steps > 0 && <p className="proof-minutes-about">{restWords(rest)}</p>}
        </>
      )}
    </>
  );
}

function CostlyRow({ step, most }: { readonly step: CostlyStep; readonly most: number }) {
  return (
    <tr>
      <th scope="row">
        <a href={editAddress(step.tree, step.step)}>{step.title}</a>
      </th>
      <td className="number costly-lost" data-label="Lost">
        <span className="costly-bar" style={{ inlineSize: `${Math.max(4, (100 * step.lost) / most)}%` }} aria-hidden="true" />
        {hundredths(step.lost)} min
      </td>
      <td className="number" data-label="Spent">
        {hundredths(step.spent)} min
      </td>
      <td className="number" data-label="Calls">
        {percent(step.chance)}
      </td>
      <td data-label="Best next from there">{step.instead ?? 'the same, in less time'}</td>
    </tr>
  );
}

function restWords({ steps, lost }: MinutesReport['rest']): string {
  const which = steps === 1 ? 'The one other step' : `The ${steps} other steps`;
  if (Math.abs(lost) < 0.005) return `${which} ${steps === 1 ? 'loses' : 'lose'} nothing.`;
  return lost > 0
    ? `${which} ${steps === 1 ? 'loses' : 'lose'} ${hundredths(lost)} min together.`
    : `${which} ${steps === 1 ? 'wins' : 'win'} back ${hundredths(-lost)} min: the tree stops early there, or knows a shorter way.`;
}
