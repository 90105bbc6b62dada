import { type ReactNode, useId } from 'react';
import { type Commit, useDraft } from './use-draft.ts';

type TextFieldProps = {
  readonly label: string;
  readonly value: string;
  readonly commit: Commit;
  readonly hint?: string | undefined;
  /** Names that are offered while typing. */
  readonly offers?: readonly string[];
  readonly isCode?: boolean;
  readonly isLabelHidden?: boolean;
};

/** A line of text that is taken over as it is typed. */
export function TextField({ label, value, commit, hint, offers, isCode = false, isLabelHidden = false }: TextFieldProps) {
  const id = useId();
  const { text, problem, change, leave } = useDraft(value, commit);
  return (
    <div className={isCode ? 'field field-code' : 'field'}>
      <label htmlFor={id} className={isLabelHidden ? 'unseen' : undefined}>
        {label}
      </label>
      <input
        id={id}
        value={text}
        autoComplete="off"
        spellCheck={!isCode}
        list={offers ? `${id}-offers` : undefined}
        aria-invalid={problem !== undefined}
        aria-describedby={problem !== undefined || hint !== undefined ? `${id}-note` : undefined}
        onChange={(event) => change(event.target.value)}
        onBlur={leave}
      />
      {offers && (
        <datalist id={`${id}-offers`}>
          {offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      )}
      <FieldNote id={`${id}-note`} problem={problem} hint={hint} />
    </div>
  );
}

type FieldNoteProps = { readonly id: string; readonly problem: string | undefined; readonly hint?: string | undefined };

export function FieldNote({ id, problem, hint }: FieldNoteProps) {
  if (problem === undefined && hint === undefined) return null;
  return (
    <p id={id} className={problem === undefined ? 'field-hint' : 'field-problem'} role={problem === undefined ? undefined : 'alert'}>
      {problem ?? hint}
    </p>
  );
}

type NumberFieldProps = { readonly label: string; readonly value: number; readonly most: number; readonly commit: (value: number) => void };

/** A number from 0 to `most`. */
export function NumberField({ label, value, most, commit }: NumberFieldProps) {
  return (
    <TextField
      label={label}
      value={String(value)}
      commit={(text) => {
        const number = text.trim() === '' ? Number.NaN : Number(text);
        if (!Number.isFinite(number) || number < 0 || number > most) return `A number from 0 to ${most}.`;
        commit(number);
      }}
    />
  );
}

type Choice = { readonly value: string; readonly text: string };

type ChoiceFieldProps = {
  readonly label: string;
  readonly value: string;
  readonly choices: readonly Choice[];
  readonly commit: (value: string) => void;
  readonly isLabelHidden?: boolean;
  readonly hint?: string | undefined;
};

/** One of several; a value that is none of them is shown as it stands. */
export function ChoiceField({ label, value, choices, commit, isLabelHidden = false, hint }: ChoiceFieldProps) {
  const id = useId();
  const isKnown = choices.some((choice) => choice.value === value);
  return (
    <div className="field">
      <label htmlFor={id} className={isLabelHidden ? 'unseen' : undefined}>
        {label}
      </label>
      <select id={id} value={value} onChange={(event) => commit(event.target.value)}>
        {!isKnown && <option value={value}>{value === '' ? 'choose…' : `${value} (not known)`}</option>}
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.text}
          </option>
        ))}
      </select>
      <FieldNote id={`${id}-note`} problem={undefined} hint={hint} />
    </div>
  );
}

type CheckFieldProps = { readonly label: string; readonly isChecked: boolean; readonly commit: (isChecked: boolean) => void };

export function CheckField({ label, isChecked, commit }: CheckFieldProps) {
  return (
    <label className="check-field">
      <input type="checkbox" checked={isChecked} onChange={(event) => commit(event.target.checked)} />
      <span>{label}</span>
    </label>
  );
}

type FormSectionProps = { readonly title: string; readonly children: ReactNode; readonly action?: ReactNode };

export function FormSection({ title, children, action }: FormSectionProps) {
  return (
    <fieldset className="form-section">
      <legend>{title}</legend>
      {children}
      {action && <div className="form-section-action">{action}</div>}
    </fieldset>
  );
}

type ListButtonsProps = {
  /** What the buttons are about, for those who hear them. */
  readonly of: string;
  readonly at: number;
  readonly count: number;
  readonly move: (by: number) => void;
  readonly remove: () => void;
};

/** Up, down and out, for an item of a list. */
export function ListButtons({ of, at, count, move, remove }: ListButtonsProps) {
  return (
    <span className="list-buttons">
      {count > 1 && (
        <>
          <button type="button" className="button-mark" disabled={at === 0} aria-label={`Move up: ${of}`} title="Move up" onClick={() => move(-1)}>
            ↑
          </button>
          <button
            type="button"
            className="button-mark"
            disabled={at === count - 1}
            aria-label={`Move down: ${of}`}
            title="Move down"
            onClick={() => move(1)}
          >
            ↓
          </button>
        </>
      )}
      <button type="button" className="button-mark" aria-label={`Remove: ${of}`} title="Remove" onClick={remove}>
        ×
      </button>
    </span>
  );
}
