import { CautionChip } from '../../shared/ui/caution-plate.tsx';
import { type Shelf, titleOf } from '../data/read-shelf.ts';
import type { SheetRow, SheetTarget, SheetWay } from './sheet-rows.ts';
import { type CautionMark, SHEET_WORDS } from './sheet-words.ts';

/** Every step on which something is read, looked at, done or told, and where each outcome leads. */
export function SheetTable({ rows, shelf }: { readonly rows: readonly SheetRow[]; readonly shelf: Shelf }) {
  return (
    <div className="sheet-columns">
      <table className="sheet-steps">
        <thead>
          <tr>
            {SHEET_WORDS.steps.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        {rows.map((row) => (
          <tbody key={row.number}>
            {row.ways.map((way, index) => (
              <tr key={way.on[0]?.text}>
                {index === 0 && <StepCell row={row} />}
                <WayCells way={way} shelf={shelf} />
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </div>
  );
}

function StepCell({ row }: { readonly row: SheetRow }) {
  const span = row.ways.length;
  return (
    <th scope="rowgroup" rowSpan={span}>
      <span className="sheet-number">{row.number}</span> {row.step.title}
      <span className="sheet-line">
        {row.setting}: {row.place}
      </span>
      {row.held !== undefined && (
        <span className="sheet-line">
          {SHEET_WORDS.held} {row.held}
        </span>
      )}
      {row.computed.map(({ shows, text }) => (
        <span key={shows} className="sheet-line">
          {shows}: <b>{text}</b>
          <b className="sheet-mark">*</b>
        </span>
      ))}
      <Marks cautions={row.cautions} />
    </th>
  );
}

function WayCells({ way, shelf }: { readonly way: SheetWay; readonly shelf: Shelf }) {
  return (
    <>
      <td className="sheet-on">
        {way.on.map(({ text, follows }, index) => (
          <span key={text}>
            {index > 0 && '; '}
            {text}
            {follows && <b className="sheet-mark">*</b>}
          </span>
        ))}
      </td>
      <td className="sheet-to">
        <GoTo to={way.to} shelf={shelf} />
      </td>
    </>
  );
}

function GoTo({ to, shelf }: { readonly to: SheetTarget; readonly shelf: Shelf }) {
  if (to.tree !== undefined) {
    const other = shelf.trees.find(({ name }) => name === to.tree);
    return <>tree “{other ? titleOf(other) : to.tree}”</>;
  }
  return (
    <>
      <span className="sheet-number">{to.number}</span> {to.title}
    </>
  );
}

/** The cautions of a step by their signal word and what they are about. */
export function Marks({ cautions }: { readonly cautions: readonly CautionMark[] }) {
  if (cautions.length === 0) return null;
  return (
    <span className="sheet-marks">
      {cautions.map(({ signal, about }) => (
        <span key={`${signal} ${about}`}>
          <CautionChip signal={signal} count={1} /> {about}
        </span>
      ))}
    </span>
  );
}
