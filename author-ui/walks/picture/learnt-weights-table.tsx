import { useId, useMemo } from 'react';
import { type Bench, readBench } from '../../../engine/bench/index.ts';
import { type LearntWeight, learntWeights, PRIOR_CALLS } from '../../../engine/review/index.ts';
import type { ConfirmedFaults } from '../../../shared/sync/wire/review-wire.ts';
import { benchAddress } from '../../desk-route.ts';
import { benchPath } from '../../store/desk-file.ts';
import { useDeskFiles, useDeskSnapshot, useDeskStore } from '../../store/use-desk-store.ts';
import { countWords, percentWords, plainName } from '../walk-words.ts';
import { withoutLearnt, withWeights } from './with-weights.ts';

type LearntWeightsProps = { readonly name: string; readonly confirmed: ConfirmedFaults['faults'] };

/** What confirmed findings say of a bench's fault weights, and a way to take them into its file. */
export function LearntWeights({ name, confirmed }: LearntWeightsProps) {
  const title = useId();
  const store = useDeskStore();
  const { canUndo } = useDeskSnapshot();
  const text = useDeskFiles().get(benchPath(name))?.text;
  const bench = useMemo(() => (text === undefined ? undefined : readBench(text, { file: '' }).bench), [text]);
  const rows = useMemo(
    () =>
      bench
        ? learntWeights(
            bench,
            confirmed.filter((one) => one.bench === name),
          )
        : [],
    [bench, confirmed, name],
  );
  if (!bench || text === undefined) return null;
  const times = rows.reduce((sum, row) => sum + row.times, 0);
  const label = `Weights of ${bench.title} from confirmed calls`;
  const back = `Weights of ${bench.title} without the calls`;
  const changes = rows.some(({ weight, newWeight }) => weight !== newWeight);
  const hasLearnt = rows.some(({ weight, prior }) => weight !== prior);
  const undo = [label, back].find((each) => each === canUndo);
  return (
    <section aria-labelledby={title} className="picture-weights">
      <h2 id={title}>Fault weights of {bench.title}</h2>
      {times === 0 && !hasLearnt ? (
        <p>
          No fault of this bench was confirmed yet. Say on a walk’s page whether its finding held; {PRIOR_CALLS} such calls count as much as the
          weights that are written in the bench.
        </p>
      ) : (
        <>
          <p className="walk-hint">
            The weights as first written count as {PRIOR_CALLS} calls, {countWords(times, 'confirmed call')} beside them, whatever tree the call was
            walked by. They are worked out anew from these each time, so no call is counted twice, and taking a confirmation back takes its count
            back.
          </p>
          <WeightRows rows={rows} bench={bench} />
          <p className="walk-buttons">
            <button type="button" className="button" disabled={!changes} onClick={() => store.write(benchPath(name), withWeights(text, rows), label)}>
              Take these weights into the bench
            </button>
            {hasLearnt && (
              <button type="button" className="button button-quiet" onClick={() => store.write(benchPath(name), withoutLearnt(text, rows), back)}>
                Back to the weights as first written
              </button>
            )}
            {undo !== undefined && (
              <button type="button" className="button button-quiet" onClick={store.undo}>
                Undo: {undo}
              </button>
            )}
            <a className="button button-quiet" href={benchAddress(name)}>
              Open the bench
            </a>
          </p>
          <p role="status">
            {hasLearnt && !changes && 'The bench on this desk has these weights. '}
            {undo !== undefined && 'Publish the tree for the crew to have them.'}
          </p>
        </>
      )}
    </section>
  );
}

function WeightRows({ rows, bench }: { readonly rows: readonly LearntWeight[]; readonly bench: Bench }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what can be scrolled has to be reachable by keyboard.
    <section className="crew-measure-scroll" tabIndex={0} aria-label={`Weights of ${bench.title}`}>
      <table className="crew-measure-table picture-table">
        <thead>
          <tr>
            <th scope="col">Fault</th>
            <th scope="col">Confirmed</th>
            <th scope="col">Share as first written</th>
            <th scope="col">Share learnt (95 % interval)</th>
            <th scope="col">Weight as first written</th>
            <th scope="col">Weight now</th>
            <th scope="col">Weight learnt</th>
          </tr>
        </thead>
        <tbody>
          {[...rows]
            .sort((a, b) => b.learnt - a.learnt)
            .map(({ fault, times, share, learnt, low, high, prior, weight, newWeight }) => (
              <tr key={fault}>
                <th scope="row">{bench.faults[fault]?.says ?? plainName(fault)}</th>
                <td>{times === 0 ? '' : times}</td>
                <td>{percentWords(share)}</td>
                <td>
                  {percentWords(learnt)} ({percentWords(low)} to {percentWords(high)})
                </td>
                <td>{prior}</td>
                <td>{weight}</td>
                <td>{newWeight}</td>
              </tr>
            ))}
        </tbody>
      </table>
    </section>
  );
}
