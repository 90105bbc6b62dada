import { Fragment, type ReactNode, useState } from 'react';
import { PART_KIND_NAMES, type PartKindName, readBench } from '../../engine/bench/index.ts';
import { type BenchSection, type EditableBench, type EntryValue, editableBench } from './bench-edits.ts';
import { type EntryField, FACT_FIELDS, FAULT_FIELDS, PART_FIELDS } from './entry-fields.ts';
import { EntryForm } from './entry-form.tsx';
import { shownValue } from './field-value.ts';
import { faultShares, partText, shareText } from './part-text.ts';

type BenchFormsProps = { readonly text: string; readonly write: (text: string, label: string) => void };

type Open = { readonly section: BenchSection | 'top'; readonly name?: string };

const SETTING_FIELDS: readonly EntryField[] = [
  { name: 'states', label: 'States, the first as the tech finds it', as: 'words', needed: true, hint: 'off, on' },
];
const SIGN_FIELDS: readonly EntryField[] = [
  { name: 'when', label: 'Can be seen or heard while', as: 'text', needed: true, hint: 'valve-coil is pulled-in' },
];
const TOP_FIELDS: readonly EntryField[] = [
  { name: 'title', label: 'Title', as: 'text', needed: true },
  { name: 'about', label: 'About', as: 'long' },
  { name: 'terminals', label: 'Points that a lead can touch', as: 'words', needed: true, hint: 'R, C, W, G' },
];

/** Everything of a bench as tables with a form for each entry: what a form changes, it writes into its own lines of the file. */
export function BenchForms({ text, write }: BenchFormsProps) {
  const editable = editableBench(text);
  const [open, setOpen] = useState<Open>();
  if (!editable) return <p className="bench-unready">The text cannot be read as a bench. Put it right as text first; then its forms are here.</p>;
  const shared: TableProps = { editable, write, open, setOpen };
  const { bench } = editable;
  const shares = faultShares(bench.faults);
  const close = (): void => setOpen(undefined);
  return (
    <div className="bench-forms">
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
            nameHint=""
            taken={[]}
            fields={TOP_FIELDS}
            value={{ title: bench.title, about: bench.about, terminals: bench.terminals }}
            points={[]}
            save={(_name, value) => saveTop(editable, value, write)}
            close={close}
          />
        ) : (
          <button type="button" className="button button-quiet" onClick={() => setOpen({ section: 'top' })}>
            Change title and terminals
          </button>
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

type TableProps = {
  readonly editable: EditableBench;
  readonly write: BenchFormsProps['write'];
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

function EntryTable({ section, one, caption, head, children: rows, editable, write, open, setOpen }: EntryTableProps) {
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
                  <tr>
                    <th scope="row">
                      <code>{name}</code>
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
                        onClick={() => write(editable.withoutEntry(section, name), `remove the ${one} ${name}`)}
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

type SectionFormProps = Pick<EntryTableProps, 'section' | 'one' | 'editable' | 'write'> & { readonly name?: string; readonly close: () => void };

function SectionForm({ section, one, name, editable, write, close }: SectionFormProps) {
  const { bench } = editable;
  const part = section === 'parts' && name !== undefined ? bench.parts[name] : undefined;
  const [kind, setKind] = useState<PartKindName>(part?.kind ?? 'coil');
  const points = [...new Set([...bench.terminals, ...Object.values(bench.parts).flatMap(endsOf)])];
  const shown: unknown = name === undefined ? {} : bench[section][name];
  const value = section === 'settings' ? { states: shown } : section === 'signs' ? { when: shown } : isFields(shown) ? shown : {};
  const save = (called: string, fields: Readonly<Record<string, unknown>>): readonly string[] => {
    const entry =
      section === 'parts' ? { kind, ...fields } : section === 'settings' ? listed(fields.states) : section === 'signs' ? fields.when : fields;
    return saveText(
      editable.withEntry(section, called, entry as EntryValue),
      `${name === undefined ? 'add' : 'change'} the ${one} ${called}`,
      write,
      called,
    );
  };
  return (
    <EntryForm
      key={`${section} ${name} ${kind}`}
      title={name === undefined ? `New ${one}` : `${one[0]?.toUpperCase()}${one.slice(1)} ${name}`}
      {...(name !== undefined && { name })}
      nameHint={section === 'faults' ? 'coil-open' : section === 'settings' ? 'main-power' : 'valve-coil'}
      taken={Object.keys(bench[section])}
      fields={fieldsOf(section, kind, Object.keys(bench.parts))}
      value={section === 'parts' && part?.kind !== kind ? { between: part && 'between' in part ? part.between : undefined } : value}
      points={points}
      save={save}
      close={close}
      above={
        section === 'parts' && (
          <p className="entry-field">
            <label>
              Kind{' '}
              <select value={kind} onChange={(event) => setKind(PART_KIND_NAMES.find((one) => one === event.target.value) ?? kind)}>
                {PART_KIND_NAMES.map((one) => (
                  <option key={one}>{one}</option>
                ))}
              </select>
            </label>
          </p>
        )
      }
    />
  );
}

function fieldsOf(section: BenchSection, kind: PartKindName, parts: readonly string[]): readonly EntryField[] {
  switch (section) {
    case 'parts':
      return PART_FIELDS[kind];
    case 'faults':
      return FAULT_FIELDS.map((field) => (field.name === 'part' ? { ...field, choices: parts } : field));
    case 'facts':
      return FACT_FIELDS;
    case 'settings':
      return SETTING_FIELDS;
    case 'signs':
      return SIGN_FIELDS;
  }
}

const isFields = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null;

const listed = (value: unknown): readonly string[] => (Array.isArray(value) ? value.map(String) : [String(value)]);

const endsOf = (part: object): readonly string[] =>
  ['between', 'primary', 'secondary'].flatMap((field) => {
    const ends: unknown = Reflect.get(part, field);
    return Array.isArray(ends) ? ends.map(String) : [];
  });

/** Writes a text that is still of the form of a bench, whatever else is wrong with it; answers why it is not. */
function saveText(text: string, label: string, write: BenchFormsProps['write'], about?: string): readonly string[] {
  const read = readBench(text, { file: '' });
  if (!read.bench) {
    const own = read.problems.filter(({ step }) => step === about);
    return (own.length > 0 ? own : read.problems).map(({ message, fix }) => `${message} ${fix}`);
  }
  write(text, label);
  return [];
}

function saveTop(editable: EditableBench, value: Readonly<Record<string, unknown>>, write: BenchFormsProps['write']): readonly string[] {
  let text = editable.text;
  for (const { name } of TOP_FIELDS) {
    const before: unknown = editable.bench[name as 'title' | 'about' | 'terminals'];
    const wanted = name === 'terminals' ? listed(value.terminals) : value[name];
    if (shownValue({ name, label: '', as: 'text' }, before) === shownValue({ name, label: '', as: 'text' }, wanted)) continue;
    text = editableBench(text)?.withTop(name, wanted as string | readonly string[] | undefined) ?? text;
  }
  return saveText(text, 'change the title and terminals', write);
}
