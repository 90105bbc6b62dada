import type { SheetEnd } from './sheet-rows.ts';
import { Marks } from './sheet-table.tsx';
import { SHEET_WORDS } from './sheet-words.ts';

/** Where walks end: the findings with their repairs in a line, then whom to call. */
export function SheetEnds({ title, ends }: { readonly title: string; readonly ends: readonly SheetEnd[] }) {
  return (
    <section className="sheet-ends" aria-labelledby="sheet-ends-title">
      <h2 id="sheet-ends-title">
        {SHEET_WORDS.findings} <span>{title}</span>
      </h2>
      <ul>
        {ends.map(({ number, step, line, cautions }) => (
          <li key={number}>
            <b>
              <span className="sheet-number">{number}</span> {step.title}.
            </b>{' '}
            {line}
            <Marks cautions={cautions} />
          </li>
        ))}
      </ul>
    </section>
  );
}
