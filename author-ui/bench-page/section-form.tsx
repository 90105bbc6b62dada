import { useState } from 'react';
import { PART_KIND_NAMES, type PartKindName } from '../../engine/bench/index.ts';
import type { BenchSection, EditableBench, EntryValue } from './bench-edits.ts';
import { benchFormWords } from './bench-form-words.ts';
import type { BenchWrite } from './bench-write.ts';
import { type EntryField, FACT_FIELDS, FAULT_FIELDS, PART_FIELDS } from './entry-fields.ts';
import { EntryForm } from './entry-form.tsx';
import { mergeEntry } from './merge-entry.ts';

const SETTING_FIELDS: readonly EntryField[] = [
  { name: 'states', label: 'States, the first as the tech finds it', as: 'words', needed: true, hint: 'off, on' },
];
const SIGN_FIELDS: readonly EntryField[] = [
  { name: 'when', label: 'Can be seen or heard while', as: 'text', needed: true, hint: 'valve-coil is pulled-in' },
];

type SectionFormProps = {
  readonly section: BenchSection;
  readonly one: string;
  readonly editable: EditableBench;
  readonly write: BenchWrite;
  readonly name?: string;
  readonly close: () => void;
};

/** The form of one entry of a bench, or of a new one. */
export function SectionForm({ section, one, name, editable, write, close }: SectionFormProps) {
  const { bench } = editable;
  const part = section === 'parts' && name !== undefined ? bench.parts[name] : undefined;
  const [kind, setKind] = useState<PartKindName>(part?.kind ?? 'coil');
  const points = [...new Set([...bench.terminals, ...Object.values(bench.parts).flatMap(endsOf)])];
  const shown: unknown = name === undefined ? {} : bench[section][name];
  const value = section === 'settings' ? { states: shown } : section === 'signs' ? { when: shown } : isFields(shown) ? shown : {};
  const save = (called: string, fields: Readonly<Record<string, unknown>>): readonly string[] => {
    const entry =
      section === 'parts' ? { kind, ...fields } : section === 'settings' ? listed(fields.states) : section === 'signs' ? fields.when : fields;
    if (name === undefined)
      return write.edit(
        `add the ${one} ${called}`,
        (now) => (Object.hasOwn(now.bench[section], called) ? [benchFormWords.taken(called)] : now.withEntry(section, called, entry as EntryValue)),
        called,
      );
    const changed = (now: EditableBench): string =>
      now.withEntry(section, called, mergeEntry(shown, entry, now.bench[section][called]) as EntryValue);
    if (name === called) return write.edit(`change the ${one} ${called}`, changed, called);
    return write.renamed({ section, from: name, to: called }, `rename the ${one} ${name} to ${called}`, changed);
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
