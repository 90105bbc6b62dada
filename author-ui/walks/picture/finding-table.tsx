import { useId } from 'react';
import type { EditionPicture } from '../../../engine/review/index.ts';
import { walksAddress } from '../../desk-route.ts';
import { filterQuery } from '../source/walk-filter.ts';

type Finding = EditionPicture['findings'][number];

type FindingTableProps = { readonly findings: readonly Finding[]; readonly titleOf: (finding: Finding) => string };

/** Where walks ended, and what was learnt of it later. */
export function FindingTable({ findings, titleOf }: FindingTableProps) {
  const title = useId();
  return (
    <section aria-labelledby={title}>
      <h2 id={title}>Findings</h2>
      {findings.length === 0 && <p>No walk of this edition came to a finding yet.</p>}
      {findings.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what can be scrolled has to be reachable by keyboard.
        <section className="crew-measure-scroll" tabIndex={0} aria-label="Findings, as a table">
          <table className="crew-measure-table picture-table">
            <thead>
              <tr>
                <th scope="col">Finding</th>
                <th scope="col">Walks</th>
                <th scope="col">Held</th>
                <th scope="col">Came back, or was another</th>
                <th scope="col">Not heard of</th>
              </tr>
            </thead>
            <tbody>
              {[...findings]
                .sort((a, b) => b.walks - a.walks)
                .map((finding) => (
                  <tr key={`${finding.tree}/${finding.step}`}>
                    <th scope="row">
                      <a href={`${walksAddress}?${filterQuery({ finding: `${finding.tree}/${finding.step}` })}`}>{titleOf(finding)}</a>
                    </th>
                    <td>{finding.walks}</td>
                    <td>{finding.held}</td>
                    <td>{finding.cameBack}</td>
                    <td>{finding.walks - finding.held - finding.cameBack}</td>
                  </tr>
                ))}
            </tbody>
          </table>
        </section>
      )}
    </section>
  );
}
