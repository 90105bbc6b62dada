import { type CompiledStep, type PathEntry, stepKey } from '../../engine/walk/index.ts';
import { MiniScale } from '../../shared/ui/mini-scale.tsx';
import { shownValue } from '../pad/typed-echo.ts';
import { wayWords } from '../words/way-words.ts';

type ReadingsTableProps = { readonly path: readonly PathEntry[]; readonly steps: ReadonlyMap<string, CompiledStep> };

/** What was measured and looked at, in order, each with what it was judged as. */
export function ReadingsTable({ path, steps }: ReadingsTableProps) {
  const rows = path.filter(({ kind, on }) => on !== undefined && kind !== 'finding' && kind !== 'handoff');
  if (rows.length === 0) return null;
  return (
    <section>
      <h2>How it was found</h2>
      <table className="report-readings">
        <thead>
          <tr>
            <th scope="col">Check</th>
            <th scope="col">Result</th>
            <th scope="col">Taken as</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((entry, index) => {
            const gauge = steps.get(stepKey(entry.tree, entry.step))?.gauge;
            const way = wayWords(entry, gauge);
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: an entry of a path is known by its place.
              <tr key={index}>
                <th scope="row">{entry.title}</th>
                {entry.judged && gauge ? (
                  <>
                    <td className="report-value">{shownValue(entry.judged)}</td>
                    <td>
                      <span className="report-taken">
                        <span>
                          {way}
                          {entry.acceptedTooClose && ', close to the edge'}
                        </span>
                        <MiniScale bands={entry.judged.bands} kind={gauge.step.takes} si={entry.judged.si} />
                      </span>
                    </td>
                  </>
                ) : entry.typed === undefined || entry.typed === way ? (
                  <td colSpan={2}>{way}</td>
                ) : (
                  <>
                    <td className="report-value">{entry.typed}</td>
                    <td>{way}</td>
                  </>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
