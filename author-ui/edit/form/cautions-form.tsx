import { CAUTION_SUBJECTS, type Caution, SIGNALS } from '../../../engine/tree/index.ts';
import { CAUTION_WORDS, CautionChip } from '../../../shared/ui/caution-plate.tsx';
import { movedAt, removedAt, replacedAt } from '../list-edits.ts';
import { ChoiceField, FormSection, ListButtons } from './fields.tsx';
import { ProseField } from './prose-field.tsx';

const SIGNAL_CHOICES = SIGNALS.map((value) => ({ value, text: `${value[0]?.toUpperCase()}${value.slice(1)}` }));
const SUBJECT_CHOICES = CAUTION_SUBJECTS.map((value) => ({ value, text: CAUTION_WORDS[value] }));

/** What each signal word means, ANSI Z535.6. */
const SIGNAL_HINTS: Readonly<Record<Caution['signal'], string>> = {
  danger: 'Will kill or seriously injure, if it is not avoided.',
  warning: 'Could kill or seriously injure.',
  caution: 'Could injure, not seriously.',
  notice: 'Hurts no one; about things.',
};

const NEW_CAUTION: Caution = {
  signal: 'caution',
  about: 'control-circuit',
  prose: [{ type: 'paragraph', children: [{ type: 'text', value: "Work to local code, the maker's instructions and your license." }] }],
};

type CautionsFormProps = {
  readonly title: string;
  readonly cautions: readonly Caution[];
  readonly commit: (cautions: Caution[], label: string) => void;
};

/** The cautions of a step or of the opening. */
export function CautionsForm({ title, cautions, commit }: CautionsFormProps) {
  const put = (at: number, caution: Caution): void => commit(replacedAt(cautions, at, caution), 'Change a caution');
  return (
    <FormSection
      title={title}
      action={
        <button type="button" className="button-plain" onClick={() => commit([...cautions, NEW_CAUTION], 'Add a caution')}>
          Add a caution
        </button>
      }
    >
      {cautions.map((caution, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a step may have two cautions of one kind, and their order is theirs.
        <div key={at} className="caution-form">
          <div className="caution-form-head">
            <CautionChip signal={caution.signal} count={1} />
            <ListButtons
              of={`${caution.signal}, ${CAUTION_WORDS[caution.about]}`}
              at={at}
              count={cautions.length}
              move={(by) => commit(movedAt(cautions, at, by), 'Move a caution')}
              remove={() => commit(removedAt(cautions, at), 'Remove a caution')}
            />
          </div>
          <div className="field-row">
            <ChoiceField
              label="Signal word"
              value={caution.signal}
              choices={SIGNAL_CHOICES}
              hint={SIGNAL_HINTS[caution.signal]}
              commit={(value) => {
                const signal = SIGNALS.find((one) => one === value);
                if (signal) put(at, { ...caution, signal });
              }}
            />
            <ChoiceField
              label="About"
              value={caution.about}
              choices={SUBJECT_CHOICES}
              commit={(value) => {
                const about = CAUTION_SUBJECTS.find((one) => one === value);
                if (about) put(at, { ...caution, about });
              }}
            />
          </div>
          <ProseField
            label={`What it says, caution ${at + 1}`}
            rows={2}
            prose={caution.prose}
            commit={(prose) => put(at, { ...caution, prose: [...prose] })}
          />
        </div>
      ))}
    </FormSection>
  );
}
