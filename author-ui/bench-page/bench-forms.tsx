import { Fragment, type ReactNode, useRef, useState } from 'react';
import type { Problem } from '../../engine/problem.ts';
import { type BenchSection, type EditableBench, editableBench } from './bench-edits.ts';
import { benchFormWords } from './bench-form-words.ts';
import type { BenchWrite } from './bench-write.ts';
import type { EntryField } from './entry-fields.ts';
import { EntryForm } from './entry-form.tsx';
import { shownValue } from './field-value.ts';
import { faultShares, partText, shareText } from './part-text.ts';
import { SectionForm } from './section-form.tsx';

type BenchFormsProps = {
  /** The bench as it can be read now; undefined where its text is of no such form. */
  readonly now: EditableBench | undefined;
  readonly problems: readonly Problem[];
  readonly write: BenchWrite;
  /** The entry that the cursor stands in, in the text beside. */
  readonly pointed: Pointed | undefined;
  /** An entry's form is open now. */
  readonly opened: (entry: Pointed | undefined) => void;
};

export type Pointed = { readonly section: BenchSection; readonly name: string };

type Open = { readonly section: BenchSection | 'top' | 'terminal'; readonly name?: string };

const TOP_FIELDS: readonly EntryField[] = [
  { name: 'title', label: 'Title', as: 'text', needed: true },
  { name: 'about', label: 'About', as: 'long' },
  { name: 'frequency', label: 'Line frequency', as: 'text', hint: '60 Hz' },
  { name: 'terminals', label: 'Points that a lead can touch', as: 'words', needed: true, hint: 'R, C, W, G' },
];

/** Everything of a bench as tables with a form for each entry: what a form changes, it writes into its own lines of the file. */
export function BenchForms({ now, problems, write, pointed, opened }: BenchFormsProps) {
  // While the text is broken the forms stay as they were, with all that is typed in them.
  const last = useRef(now);
  if (now) last.current = now;
  const editable = last.current;
  const [open, openForm] = useState<Open>();
  const setOpen = (next: Open | undefined): void => {
    openForm(next);
    const { section, name } = next ?? {};
    opened(section !== undefined && section !== 'top' && section !== 'terminal' && name !== undefined ? { section, name } : undefined);
  };
  if (!editable) return <p className="bench-unready">{benchFormWords.unready}</p>;
  const shared: TableProps = { editable, problems, write, open, setOpen, pointed };
  const { bench } = editable;
  const shares = faultShares(bench.faults);
  const close = (): void => setOpen(undefined);
  return (
    <div className="bench-forms">
      {!now && (
        <p className="bench-unready" role="status">
          {benchFormWords.waiting}
        </p>
      )}
      <section className="bench-top">
        <dl className="terms">
          <div>
            <dt>Terminals</dt>
            <dd>{bench.terminals.join(', ')}</dd>
          </div>
        </dl>
        {open?.section === 'top' ? (
          <EntryForm
            title="Title and terminals"
            name="top"
            named={false}
            nameHint=""
            taken={[]}
            fields={TOP_FIELDS}
            value={{ title: bench.title, about: bench.about, frequency: bench.frequency, terminals: bench.terminals }}
            points={[]}
            save={(_name, value) => saveTop(editable, value, write)}
            close={close}
          />
        ) : open?.section === 'terminal' ? (
          <EntryForm
            title="Rename a terminal"
            name="top"
            named={false}
            nameHint=""
            taken={[]}
            fields={[
              { name: 'from', label: 'Terminal', as: 'choice', needed: true, choices: bench.terminals },
              { name: 'to', label: 'Is called', as: 'text', needed: true, hint: 'K1' },
            ]}
            value={{ from: bench.terminals[0] }}
            points={[]}
            save={(_name, { from, to }) =>
              write.renamed({ section: 'terminals', from: String(from), to: String(to) }, `rename the terminal ${from} to ${to}`)
            }
            close={close}
          />
        ) : (
          <p className="bench-top-actions">
            <button type="button" className="button button-quiet" onClick={() => setOpen({ section: 'top' })}>
              Change title and terminals
            </button>{' '}
            <button type="button" className="button button-quiet" onClick={() => setOpen({ section: 'terminal' })}>
              Rename a terminal
            </button>
          </p>
        )}
      </section>
      <EntryTable {...shared} section="settings" one="setting" caption="Settings" head={['Setting', 'States, first as found']}>
        {Object.entries(bench.settings).map(([name, states]) => [name, states.join(', ')])}
      </EntryTable>
      <EntryTable {...shared} section="facts" one="fact" caption="Facts" head={['Fact', 'Asked as', 'Usually, and from to']}>
        {Object.entries(bench.facts).map(([name, { ask, usual, from, to }]) => [name, ask, `${usual}, from ${from} to ${to}`])}
      </EntryTable>
      <EntryTable {...shared} section="parts" one="part" caption="Parts" head={['Part', 'Kind', 'What it is']}>
        {Object.entries(bench.parts).map(([name, part]) => [name, part.kind, partText(part)])}
      </EntryTable>
      <EntryTable {...shared} section="faults" one="fault" caption="Faults, those met most often first" head={['Fault', 'Met', 'Part', 'What it is']}>
        {Object.entries(bench.faults)
          .sort(([, a], [, b]) => b.weight - a.weight)
          .map(([name, { part, becomes, says }]) => [name, shareText(shares[name] ?? 0), `${part} becomes ${becomes}`, says ?? ''])}
      </EntryTable>
      <EntryTable {...shared} section="signs" one="sign" caption="Signs" head={['Sign', 'Can be seen or heard while']}>
        {Object.entries(bench.signs)}
      </EntryTable>
    </div>
  );
}

type TableProps = Pick<BenchFormsProps, 'problems' | 'write' | 'pointed'> & {
  readonly editable: EditableBench;
  readonly open: Open | undefined;
  readonly setOpen: (open: Open | undefined) => void;
};

type EntryTableProps = TableProps & {
  readonly section: BenchSection;
  readonly one: string;
  readonly caption: string;
  readonly head: readonly string[];
  readonly children: readonly (readonly string[])[];
};

/** Why an entry was not removed; of no weight once the text is another. */
type Refused = { readonly of: string; readonly why: readonly string[] };

function EntryTable({ section, one, caption, head, children: rows, editable, problems, write, open, setOpen, pointed }: EntryTableProps) {
  const [refused, setRefused] = useState<Refused>();
  const isNew = open?.section === section && open.name === undefined;
  const form = (name?: string): ReactNode => (
    <SectionForm
      section={section}
      one={one}
      {...(name !== undefined && { name })}
      editable={editable}
      write={write}
      close={() => setOpen(undefined)}
    />
  );
  return (
    <section className="bench-section">
      <table className="bench-table">
        <caption>{caption}</caption>
        {rows.length > 0 && (
          <>
            <thead>
              <tr>
                {head.map((title) => (
                  <th key={title} scope="col">
                    {title}
                  </th>
                ))}
                <th scope="col">
                  <span className="unseen">Change</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map(([name = '', ...cells]) => (
                <Fragment key={name}>
                  <tr data-shown={pointed?.section === section && pointed.name === name ? true : undefined}>
                    <th scope="row">
                      <code>{name}</code>
                      <EntryProblems problems={problems} lines={editable.linesOf(section, name)} />
                    </th>
                    {cells.map((cell, column) => (
                      // biome-ignore lint/suspicious/noArrayIndexKey: a cell is known by its column.
                      <td key={column}>{cell}</td>
                    ))}
                    <td className="bench-entry-actions">
                      <button type="button" className="button-plain" aria-label={`Edit ${one} ${name}`} onClick={() => setOpen({ section, name })}>
                        Edit
                      </button>{' '}
                      <button
                        type="button"
                        className="button-plain"
                        aria-label={`Remove ${one} ${name}`}
                        onClick={() =>
                          setRefused({
                            of: editable.text,
                            why: write.edit(`remove the ${one} ${name}`, (now) => now.withoutEntry(section, name), name),
                          })
                        }
                      >
                        Remove
                      </button>
                    </td>
                  </tr>
                  {open?.section === section && open.name === name && (
                    <tr>
                      <td colSpan={head.length + 1}>{form(name)}</td>
                    </tr>
                  )}
                </Fragment>
              ))}
            </tbody>
          </>
        )}
      </table>
      {refused?.of === editable.text && refused.why.length > 0 && (
        <p className="entry-wrong" role="alert">
          {refused.why.join(' ')}
        </p>
      )}
      {rows.length === 0 && !isNew && <p className="bench-none">None yet.</p>}
      {isNew && <div className="bench-form-place">{form()}</div>}
      {!isNew && (
        <button type="button" className="button button-quiet" onClick={() => setOpen({ section })}>
          Add a {one}
        </button>
      )}
    </section>
  );
}

type EntryProblemsProps = { readonly problems: readonly Problem[]; readonly lines: { readonly from: number; readonly end: number } | undefined };

/** What is wrong with an entry, where it stands in its table. */
function EntryProblems({ problems, lines }: EntryProblemsProps) {
  const own = problems.filter(({ line }) => lines && lines.from <= line && line < lines.end);
  if (own.length === 0) return null;
  return (
    <ul className="entry-problems">
      {own.map(({ severity, code, message, fix, column, line }) => (
        <li key={`${line} ${column} ${code} ${message}`}>
          <strong>{severity === 'error' ? 'Error' : 'Warning'}</strong> {message} {fix}
        </li>
      ))}
    </ul>
  );
}

const listed = (value: unknown): readonly string[] => (Array.isArray(value) ? value.map(String) : [String(value)]);

function saveTop(editable: EditableBench, value: Readonly<Record<string, unknown>>, write: BenchWrite): readonly string[] {
  // Compared with what the form showed: what it left alone stays as the text has it by now.
  const changed = TOP_FIELDS.flatMap(({ name }) => {
    const before: unknown = editable.bench[name as 'title' | 'about' | 'frequency' | 'terminals'];
    const wanted = name === 'terminals' ? listed(value.terminals) : value[name];
    const field: EntryField = { name, label: '', as: 'text' };
    return shownValue(field, before) === shownValue(field, wanted) ? [] : [{ name, wanted: wanted as string | readonly string[] | undefined }];
  });
  return write.edit('change the title and terminals', (now) =>
    changed.reduce((text, { name, wanted }) => editableBench(text)?.withTop(name, wanted) ?? text, now.text),
  );
}
