import { type ReactNode, useId, useState } from 'react';
import { BecomesField } from './becomes-field.tsx';
import { benchFormWords } from './bench-form-words.ts';
import type { EntryField } from './entry-fields.ts';
import { shownValue, writtenValue } from './field-value.ts';
import { StagesField } from './stages-field.tsx';

type EntryFormProps = {
  readonly title: string;
  /** The name that it has; absent for a new one. */
  readonly name?: string;
  /** Whether it has a name of its own that can be typed. */
  readonly named?: boolean;
  readonly nameHint: string;
  readonly taken: readonly string[];
  readonly fields: readonly EntryField[];
  readonly value: Readonly<Record<string, unknown>>;
  /** Points of the circuit, offered wherever one is typed. */
  readonly points: readonly string[];
  /** Stands before the fields: what kind of thing it is. */
  readonly above?: ReactNode;
  /** Writes it; answers with what is wrong where it cannot be. */
  readonly save: (name: string, value: Readonly<Record<string, unknown>>) => readonly string[];
  readonly close: () => void;
};

const NAME = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** A form for one entry of a bench. What is wrong is said in it, and nothing that was typed is lost. */
export function EntryForm({ title, name, named = true, nameHint, taken, fields, value, points, above, save, close }: EntryFormProps) {
  const id = useId();
  const [called, setCalled] = useState(name ?? '');
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>({});
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const textOf = (field: EntryField): string => texts[field.name] ?? shownValue(field, value[field.name]);

  const submit = (): void => {
    const missing = fields
      .filter((field) => field.needed && textOf(field).replaceAll(',', '').trim() === '')
      .map(({ label }) => `“${label}” is empty.`);
    const badName = !NAME.test(called)
      ? ['The name is written in small letters, numbers and single hyphens, such as valve-coil.']
      : called !== name && taken.includes(called)
        ? [benchFormWords.taken(called)]
        : [];
    const problems = [...badName, ...missing];
    if (problems.length > 0) {
      setWrong(problems);
      return;
    }
    const kept = Object.fromEntries(
      fields.flatMap((field) => {
        // A field that was not touched keeps its value as it is, whatever its writing.
        const written = texts[field.name] === undefined ? value[field.name] : writtenValue(field, textOf(field));
        return written === undefined ? [] : [[field.name, written]];
      }),
    );
    const refused = save(called, kept);
    if (refused.length > 0) setWrong(refused);
    else close();
  };

  return (
    <form
      className="entry-form"
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
      onKeyDown={(event) => event.key === 'Escape' && close()}
    >
      <h3>{title}</h3>
      {named && (
        <p className="entry-field">
          <label htmlFor={`${id}-name`}>Name in the file</label>
          <input
            id={`${id}-name`}
            value={called}
            placeholder={nameHint}
            autoComplete="off"
            // biome-ignore lint/a11y/noAutofocus: the form opens by a press of its own button.
            autoFocus={name === undefined}
            aria-describedby={`${id}-name-note`}
            onChange={(event) => setCalled(event.target.value)}
          />
          <span id={`${id}-name-note`} className="entry-note">
            {name !== undefined &&
              called !== name &&
              'Every mention follows: here, in the trees checked against this bench, and in their other benches.'}
          </span>
        </p>
      )}
      {above}
      {fields.map((field) => (
        <FieldInput
          key={field.name}
          id={`${id}-${field.name}`}
          field={field}
          text={textOf(field)}
          points={`${id}-points`}
          onText={(text) => setTexts((now) => ({ ...now, [field.name]: text }))}
        />
      ))}
      <datalist id={`${id}-points`}>
        {points.map((point) => (
          <option key={point} value={point} />
        ))}
      </datalist>
      {wrong.length > 0 && (
        <div className="entry-wrong" role="alert">
          <ul>
            {wrong.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </div>
      )}
      <p className="entry-actions">
        <button type="submit" className="button">
          Save
        </button>
        <button type="button" className="button button-quiet" onClick={close}>
          Cancel
        </button>
      </p>
    </form>
  );
}

type FieldInputProps = {
  readonly id: string;
  readonly field: EntryField;
  readonly text: string;
  readonly points: string;
  readonly onText: (text: string) => void;
};

function FieldInput({ id, field, text, points, onText }: FieldInputProps) {
  const label = (
    <label htmlFor={id}>
      {field.label}
      {field.needed ? '' : ' (may be empty)'}
    </label>
  );
  if (field.as === 'becomes') return <BecomesField id={id} text={text} points={points} onText={onText} />;
  if (field.as === 'stages') return <StagesField label={field.label} text={text} onText={onText} />;
  if (field.as === 'pair') {
    const [from = '', to = ''] = text.split(',').map((point) => point.trim());
    return (
      <fieldset className="entry-field entry-pair">
        <legend>{field.label}</legend>
        <label>
          from <input value={from} list={points} autoComplete="off" onChange={(event) => onText(`${event.target.value}, ${to}`)} />
        </label>
        <label>
          to <input value={to} list={points} autoComplete="off" onChange={(event) => onText(`${from}, ${event.target.value}`)} />
        </label>
      </fieldset>
    );
  }
  return (
    <p className="entry-field">
      {label}
      {field.as === 'choice' ? (
        <select id={id} value={text} onChange={(event) => onText(event.target.value)}>
          <option value="">choose</option>
          {(field.choices ?? []).map((choice) => (
            <option key={choice}>{choice}</option>
          ))}
        </select>
      ) : field.as === 'long' ? (
        <textarea id={id} rows={5} value={text} placeholder={field.hint} spellCheck={false} onChange={(event) => onText(event.target.value)} />
      ) : (
        <input id={id} value={text} placeholder={field.hint} autoComplete="off" spellCheck={false} onChange={(event) => onText(event.target.value)} />
      )}
    </p>
  );
}
