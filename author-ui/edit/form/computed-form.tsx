import { formulaWords, readFormula, showFormula } from '../../../engine/formula/index.ts';
import { unitOf } from '../../../engine/quantity/index.ts';
import { type Computed, isChoice, type Step } from '../../../engine/tree/index.ts';
import { usualComputed } from '../../document/usual-computed.ts';
import { movedAt, removedAt, replacedAt } from '../list-edits.ts';
import { useEditing } from '../page/edit-context.ts';
import { FormSection, ListButtons, TextField } from './fields.tsx';

/** The numbers that a step works out for the house: a name, a formula and a unit each, with the value at the usual facts. */
export function ComputedForm({ step }: { readonly step: Step }) {
  const { editStep, facts } = useEditing();
  const numbers = step.computed ?? [];
  const values = usualComputed(step, facts);
  const commit = (now: readonly Computed[], label: string): void =>
    editStep(label, step.id, ({ computed: _, ...one }) => (now.length === 0 ? one : { ...one, computed: [...now] }));
  const anyFact = Object.entries(facts).find(([, fact]) => !isChoice(fact))?.[0];
  return (
    <FormSection
      title="Numbers worked out for the house"
      action={
        <button
          type="button"
          className="button-plain"
          onClick={() => commit([...numbers, { shows: 'What is worked out', by: anyFact ?? '24 V' }], 'Work out a number')}
        >
          Work out a number
        </button>
      }
    >
      {numbers.map((number, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a number is known by its place while it is typed.
        <div key={at} className="computed-form">
          <TextField
            label="What it is"
            value={number.shows}
            commit={(text) => {
              if (text.trim() === '') return 'Say what the number is.';
              commit(replacedAt(numbers, at, { ...number, shows: text.trim() }), 'Change a computed number');
              return undefined;
            }}
          />
          <TextField
            label="Formula"
            isCode
            value={number.by}
            hint={values[at] && `At the usual facts: ${values[at].text ?? values[at].why}`}
            commit={(text) => {
              const formula = readFormula(text);
              if (!formula.ok) {
                const { message, fix } = formulaWords(formula.problem);
                return `${message} ${fix}`;
              }
              commit(replacedAt(numbers, at, { ...number, by: showFormula(formula.value) }), 'Change a computed number');
              return undefined;
            }}
          />
          <TextField
            label="Unit"
            isCode
            value={number.unit ?? ''}
            hint="Empty: the unit of the function."
            commit={(text) => {
              const { unit: _, ...rest } = number;
              const unit = text.trim() === '' ? undefined : unitOf(text)?.symbol;
              if (text.trim() !== '' && unit === undefined) return 'This is no unit known here. Write one such as gpd, V or %.';
              commit(replacedAt(numbers, at, unit === undefined ? rest : { ...rest, unit }), 'Change a computed number');
              return undefined;
            }}
          />
          <ListButtons
            of={number.shows}
            at={at}
            count={numbers.length}
            move={(by) => commit(movedAt(numbers, at, by), 'Move a computed number')}
            remove={() => commit(removedAt(numbers, at), 'Remove a computed number')}
          />
        </div>
      ))}
    </FormSection>
  );
}
