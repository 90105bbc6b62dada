import type { Bench } from '../../../engine/bench/index.ts';
import type { DrillPathStep, DrillScore } from '../../../engine/review/index.ts';
import { concernWords } from '../../../engine/walk/index.ts';
import { drillAnswerWords, drillMoveWords, drillStepWords, minutesText, outcomeTitle, stillInPlaceWords } from './drill-step-words.ts';
import './drill-comparison.css';

type DrillComparisonProps = {
  readonly bench: Bench;
  readonly score: DrillScore;
  /** Whose path it is, at the head of its column. */
  readonly whose: string;
};

/** What came of a drill: the answer, the numbers, and the path taken beside the best one. */
export function DrillComparison({ bench, score, whose }: DrillComparisonProps) {
  const { end, right, hidden, best, refused, leftInPlace, blew, toldNothing } = score;
  const group = best.group.filter((answer) => answer !== hidden);
  return (
    <div className="drill-comparison">
      <section className="drill-answer" data-right={right} aria-label="Answer">
        <p className="drill-answer-title">
          <span aria-hidden="true">{right ? '✓' : '✗'}</span> {outcomeTitle(score)}
        </p>
        <dl>
          <div>
            <dt>Hidden</dt>
            <dd>{drillAnswerWords(bench, hidden)}</dd>
          </div>
          {end?.how === 'named' && (
            <div>
              <dt>Named</dt>
              <dd>{(end.faults.length === 0 ? [undefined] : end.faults).map((fault) => drillAnswerWords(bench, fault)).join(' ')}</dd>
            </div>
          )}
          {group.length > 0 && (
            <div>
              <dt>No reading tells it from</dt>
              <dd>{group.map((answer) => drillAnswerWords(bench, answer)).join(' ')}</dd>
            </div>
          )}
        </dl>
        {right === true && score.left.length > 1 && (
          <p>
            {score.left.length - 1} other {score.left.length === 2 ? 'answer was' : 'answers were'} still possible by what had been read: right, with
            some luck.
          </p>
        )}
      </section>
      <Numbers score={score} whose={whose} />
      {(refused.length > 0 || leftInPlace.length > 0 || blew.length > 0) && (
        <section className="drill-remarks" aria-labelledby="drill-remarks-title">
          <h2 id="drill-remarks-title">To talk about</h2>
          <ul>
            {refused.map(({ line, move, concern }) => (
              <li key={line}>
                <strong>Refused: {drillMoveWords(move)}.</strong> {concernWords(concern).message} {concernWords(concern).fix}
              </li>
            ))}
            {blew.map((fuse) => (
              <li key={fuse}>
                <strong>A move blew the fuse {fuse.replaceAll('-', ' ')}.</strong> On a call that is a second fault, of one’s own making.
              </li>
            ))}
            {leftInPlace.map((item) => (
              <li key={item.key}>
                <strong>Left in place: {stillInPlaceWords(item)}.</strong> Put everything back before the answer is given.
              </li>
            ))}
          </ul>
        </section>
      )}
      <div className="drill-paths">
        <PathColumn title={whose} path={score.path} toldNothing={toldNothing} />
        <PathColumn title="Best way known" path={best.steps} toldNothing={[]} />
      </div>
      <p className="drill-note">
        Minutes are the tree’s own count for each reading and act, not the clock. “Left” is how many answers were still possible after a reading,
        “nothing is wrong” included. The best way is the order with the fewest minutes over all faults of the circuit, as often as each is met; on one
        fault a lucky guess can beat it.
        {best.method === 'rollout' && ' On a circuit of this size the best way is the best that was found; there may be a better one.'}
      </p>
    </div>
  );
}

function Numbers({ score, whose }: { readonly score: DrillScore; readonly whose: string }) {
  const readings = (path: readonly DrillPathStep[]): number => path.filter(({ does }) => does.kind !== 'act').length;
  const rows: readonly (readonly [string, string, string])[] = [
    ['Minutes', minutesText(score.minutes), minutesText(score.best.minutes)],
    ['Readings and looks', String(readings(score.path)), String(readings(score.best.steps))],
    ['That told nothing', String(score.toldNothing.length), '0'],
    ['Refused as unsafe', String(score.refused.length), '0'],
    ['Left in place', String(score.leftInPlace.length), ''],
    ['Minutes on the clock', minutesText(score.clock), ''],
  ];
  return (
    <table className="drill-numbers">
      <thead>
        <tr>
          <td />
          <th scope="col">{whose}</th>
          <th scope="col">Best way</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, own, other]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{own}</td>
            <td>{other}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

type PathColumnProps = { readonly title: string; readonly path: readonly DrillPathStep[]; readonly toldNothing: readonly number[] };

function PathColumn({ title, path, toldNothing }: PathColumnProps) {
  return (
    <section className="drill-path" aria-label={title}>
      <h2>{title}</h2>
      {path.length === 0 ? <p>Nothing was read.</p> : <DrillPathList path={path} toldNothing={toldNothing} />}
    </section>
  );
}

/** Moves in order, each with what it showed, what it cost and what it left possible. */
export function DrillPathList({ path, toldNothing }: Omit<PathColumnProps, 'title'>) {
  const most = Math.max(...path.map(({ left }) => left ?? 0), 1);
  return (
    <ol className="drill-path-list">
      {path.map((step, i) => {
        const idle = toldNothing.includes(i);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a move is known by its place.
          <li key={i} data-kind={step.does.kind} data-idle={idle || undefined}>
            <span className="drill-path-what">{drillStepWords(step)}</span>
            {step.shown !== undefined && <span className="drill-path-shown">{step.shown}</span>}
            <span className="drill-path-cost">{minutesText(step.minutes)} min</span>
            {step.left !== undefined && step.does.kind !== 'dead' && (
              <span className="drill-path-left">
                <span className="drill-path-bar" style={{ inlineSize: `${(100 * step.left) / most}%` }} aria-hidden="true" />
                <span>
                  {step.left} left{idle && ': told nothing'}
                </span>
              </span>
            )}
          </li>
        );
      })}
    </ol>
  );
}
