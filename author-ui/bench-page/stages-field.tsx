import { useState } from 'react';
import { readStageRows, type StageRow, writeStageRows } from './stage-rows.ts';

type StagesFieldProps = { readonly label: string; readonly text: string; readonly onText: (text: string) => void };

/** The stages of a sequence, one way a row: from where, to where, and when. The first row's stage is where it begins. */
export function StagesField({ label, text, onText }: StagesFieldProps) {
  const [rows, setRows] = useState(() => {
    const read = readStageRows(text);
    return read.length > 0 ? read : [{ stage: '', to: '', when: '' }];
  });
  const change = (next: readonly StageRow[]): void => {
    setRows([...next]);
    onText(writeStageRows(next));
  };
  const set = (at: number, part: Partial<StageRow>): void => change(rows.map((row, index) => (index === at ? { ...row, ...part } : row)));
  return (
    <fieldset className="entry-field entry-stages">
      <legend>{label}</legend>
      <table>
        <thead>
          <tr>
            <th scope="col">In stage</th>
            <th scope="col">goes on to</th>
            <th scope="col">when</th>
            <th scope="col">
              <span className="unseen">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a row is known by its place; two may say the same while they are typed.
            <tr key={index}>
              <td>
                <input
                  aria-label={`Stage, row ${index + 1}`}
                  value={row.stage}
                  placeholder="off"
                  onChange={(event) => set(index, { stage: event.target.value })}
                />
              </td>
              <td>
                <input
                  aria-label={`Goes on to, row ${index + 1}`}
                  value={row.to}
                  placeholder="on"
                  onChange={(event) => set(index, { to: event.target.value })}
                />
              </td>
              <td>
                <input
                  aria-label={`When, row ${index + 1}`}
                  value={row.when}
                  placeholder="heat-call is on"
                  onChange={(event) => set(index, { when: event.target.value })}
                />
              </td>
              <td>
                <button
                  type="button"
                  className="button-plain"
                  aria-label={`Remove row ${index + 1}`}
                  onClick={() => change(rows.filter((_, at) => at !== index))}
                >
                  Remove
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <button
        type="button"
        className="button button-quiet"
        onClick={() => change([...rows, { stage: rows.at(-1)?.to ?? '', to: rows[0]?.stage ?? '', when: '' }])}
      >
        Add a way
      </button>
    </fieldset>
  );
}
