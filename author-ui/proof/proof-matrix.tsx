import { memo } from 'react';
import { CELL_SIGNS, cellOf, cellText, type MatrixCell } from './matrix-cell.ts';
import type { CaseAsked } from './proof-message.ts';
import type { ProofEnd, ProofReport } from './proof-report.ts';
import { sameCase } from './use-proof.ts';

type ProofMatrixProps = { readonly report: ProofReport; readonly shown: CaseAsked | undefined; readonly ask: (which: CaseAsked) => void };

/** Faults against the steps that their walks end on. A cell is pressed to walk its case again. */
export const ProofMatrix = memo(function ProofMatrix({ report, shown, ask }: ProofMatrixProps) {
  const { ends, faults, healthy, benches } = report;
  if (ends.length === 0) return null;
  return (
    <section className="proof-matrix" aria-labelledby="matrix-title">
      <h2 id="matrix-title">Faults against findings</h2>
      <p className="proof-legend">
        {Object.values(CELL_SIGNS).map(({ sign, word, about }) => (
          <span key={word}>
            <span aria-hidden="true">{sign}</span> <strong>{word}</strong>: {about}
          </span>
        ))}
      </p>
      <section className="proof-scroll" aria-label="Faults against findings, scrolls" {...{ tabIndex: 0 }}>
        <table>
          <thead>
            <tr>
              <th scope="col">Fault</th>
              <th scope="col" className="number">
                Weight
              </th>
              <th scope="col" className="number">
                Minutes
              </th>
              {ends.map((end) => (
                <th key={end.key} scope="col" className="proof-end">
                  <span>{end.title}</span>
                </th>
              ))}
            </tr>
          </thead>
          {healthy.map((row) => {
            const names = new Set(Object.keys(benches[row.bench]?.faults ?? {}));
            const line = { ends, shown, ask, bench: row.bench, names };
            return (
              <tbody key={row.bench}>
                <tr className="proof-bench">
                  <th colSpan={3 + ends.length} scope="rowgroup">
                    <span>{benches[row.bench]?.title ?? row.bench}</span>
                  </th>
                </tr>
                <MatrixRow {...line} fault={undefined} label="nothing wrong" cases={row.cases} findings={row.findings} right={row.right} />
                {faults
                  .filter(({ bench }) => bench === row.bench)
                  .map((fault) => (
                    <MatrixRow
                      key={fault.id}
                      {...line}
                      fault={fault.id}
                      label={fault.id}
                      says={fault.says}
                      cases={fault.cases}
                      findings={fault.findings}
                      right={fault.right}
                      weight={fault.weight}
                      minutes={fault.minutes}
                    />
                  ))}
              </tbody>
            );
          })}
        </table>
      </section>
    </section>
  );
});

type MatrixRowProps = {
  readonly ends: readonly ProofEnd[];
  readonly shown: CaseAsked | undefined;
  readonly ask: (which: CaseAsked) => void;
  readonly bench: string;
  readonly names: ReadonlySet<string>;
  readonly fault: string | undefined;
  readonly label: string;
  readonly says?: string | undefined;
  readonly cases: number;
  readonly findings: Readonly<Record<string, number>>;
  readonly right: boolean;
  readonly weight?: number;
  readonly minutes?: number;
};

function MatrixRow({ ends, shown, ask, bench, names, fault, label, says, cases, findings, right, weight, minutes }: MatrixRowProps) {
  return (
    <tr className={right ? '' : 'proof-row-wrong'}>
      <th scope="row" title={says}>
        <code>{label}</code>
      </th>
      <td className="number">{weight ?? ''}</td>
      <td className="number">{minutes === undefined ? '' : minutes.toFixed(1)}</td>
      {ends.map((end) => {
        const count = findings[end.key];
        if (count === undefined) return <td key={end.key} />;
        const which: CaseAsked = { bench, fault, end: end.key };
        const pressed = shown !== undefined && sameCase(shown, which);
        return (
          <td key={end.key}>
            <CellButton cell={cellOf(end, fault, names, count)} label={label} end={end} cases={cases} pressed={pressed} onPress={() => ask(which)} />
          </td>
        );
      })}
    </tr>
  );
}

type CellButtonProps = {
  readonly cell: MatrixCell;
  readonly label: string;
  readonly end: ProofEnd;
  readonly cases: number;
  readonly pressed: boolean;
  readonly onPress: () => void;
};

function CellButton({ cell, label, end, cases, pressed, onPress }: CellButtonProps) {
  const some = cell.count < cases ? `, ${cell.count} of ${cases} houses` : '';
  return (
    <button
      type="button"
      className={`proof-cell proof-cell-${cell.kind}`}
      aria-pressed={pressed}
      aria-label={`${label} at ${end.title}: ${cellText(cell)}${some}. Replay`}
      title={`${label} at ${end.title}: ${cellText(cell)}${some}`}
      onClick={onPress}
    >
      <span aria-hidden="true">{CELL_SIGNS[cell.kind].sign}</span> {cellText(cell)}
    </button>
  );
}
