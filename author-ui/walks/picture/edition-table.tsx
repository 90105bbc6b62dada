import { useId } from 'react';
import {
  compareEditions,
  type EditionComparison,
  type EditionPicture,
  type Interval,
  isSure,
  LEAST_CLOSED,
  quantileOf,
} from '../../../engine/review/index.ts';
import { intervalWords } from '../crew/crew-words.ts';
import { minutesWords, percentWords } from '../walk-words.ts';

type EditionTableProps = { readonly editions: readonly EditionPicture[]; readonly chosen: string; readonly choose: (edition: string) => void };

/** The editions of a tree side by side, each against the one before it. */
export function EditionTable({ editions, chosen, choose }: EditionTableProps) {
  const title = useId();
  return (
    <section aria-labelledby={title}>
      <h2 id={title}>Editions, the oldest first</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what can be scrolled has to be reachable by keyboard. */}
      <section className="crew-measure-scroll" tabIndex={0} aria-label="Editions side by side">
        <table className="crew-measure-table picture-table">
          <thead>
            <tr>
              <th scope="col">Edition</th>
              <th scope="col">Calls</th>
              <th scope="col">Closed</th>
              <th scope="col">Median minutes</th>
              <th scope="col">Solved</th>
              <th scope="col">Findings that held</th>
              <th scope="col">Against the one before (95 % interval)</th>
            </tr>
          </thead>
          <tbody>
            {editions.map((edition, at) => {
              const before = editions[at - 1];
              const median = quantileOf(edition.minutes, 0.5);
              const heard = edition.findings.reduce((sum, { held, cameBack }) => ({ held: sum.held + held, all: sum.all + held + cameBack }), {
                held: 0,
                all: 0,
              });
              return (
                <tr key={edition.edition} data-shown={edition.edition === chosen || undefined}>
                  <th scope="row">
                    <button type="button" className="button-plain" aria-pressed={edition.edition === chosen} onClick={() => choose(edition.edition)}>
                      {at + 1}: <code>{edition.edition.slice(0, 12)}</code>
                    </button>
                  </th>
                  <td>{edition.walks}</td>
                  <td>{edition.closed}</td>
                  <td>{median === undefined ? '' : minutesWords(median)}</td>
                  <td>{`${(edition.outcomes.fixed ?? 0) + (edition.outcomes['nothing-wrong'] ?? 0)} of ${edition.closed}`}</td>
                  <td>{heard.all === 0 ? 'none heard of' : `${heard.held} of ${heard.all}`}</td>
                  <td>{before ? comparisonWords(compareEditions(before, edition)).map((words) => <p key={words}>{words}</p>) : 'the first here'}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </section>
  );
}

/** How an edition did against the one before it; a difference that may be none says so. */
function comparisonWords({ minutes, solved, held }: EditionComparison): readonly string[] {
  if (!minutes && !solved && !held) return [`Too few closed calls to tell (fewer than ${LEAST_CLOSED} on one of them).`];
  const signed = (show: (value: number) => string) => (value: number) => `${value > 0 ? '+' : ''}${show(value)}`;
  const told = (what: string, interval: Interval, show: (value: number) => string): string =>
    `${what} ${intervalWords(interval, signed(show))}${isSure(interval) ? '' : ': may be no difference'}`;
  return [
    ...(minutes ? [told('Minutes', minutes, minutesWords)] : []),
    ...(solved ? [told('Solved', solved, percentWords)] : []),
    ...(held ? [told('Held', held, percentWords)] : []),
  ];
}
