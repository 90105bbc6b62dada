import { QUANTITY_KIND_NAMES, quantityKind, readTypedValue } from '../../../engine/quantity/index.ts';
import { type ChoiceFact, type FactSpec, isChoice, type QuantityFact, slugSchema } from '../../../engine/tree/index.ts';
import { useEditing } from '../page/edit-context.ts';
import { ChoiceField, FormSection, ListButtons, TextField } from './fields.tsx';
import { namesProblem, slugList } from './slug-list.ts';

const KIND_CHOICES = [{ value: '', text: 'One of several' }, ...QUANTITY_KIND_NAMES.map((value) => ({ value, text: quantityKind(value).label }))];
const NEW_FACT: QuantityFact = { quantity: 'ac-voltage', ask: 'Line voltage at the unit', usual: '120 V', from: '108 V', to: '126 V' };
const NEW_CHOICE = { choices: ['one', 'other'], usual: 'one' };

/** A record with one key under another name, in its place. */
const rekeyed = <T,>(record: Readonly<Record<string, T>>, from: string, to: string): Record<string, T> =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key === from ? to : key, value]));

/** The facts that the tree itself names; those of its benches come with them. */
export function FactsForm() {
  const { tree, edit } = useEditing();
  const facts = Object.entries(tree.facts);
  const put = (label: string, change: (facts: Readonly<Record<string, FactSpec>>) => Record<string, FactSpec>): void =>
    edit(label, (now) => ({ ...now, facts: change(now.facts) }));
  const free = ['line-volts', ...Array.from({ length: facts.length + 1 }, (_, at) => `fact-${at + 1}`)].find(
    (name) => !Object.hasOwn(tree.facts, name),
  );
  return (
    <FormSection
      title="Facts of the site"
      action={
        <button
          type="button"
          className="button-plain"
          onClick={() => free !== undefined && put('Add a fact', (now) => ({ ...now, [free]: NEW_FACT }))}
        >
          Add a fact
        </button>
      }
    >
      {facts.map(([name, fact], at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a fact keeps its place while its name is typed.
        <div key={at} className="fact-form">
          <div className="field-row">
            <TextField
              label="Name"
              isCode
              value={name}
              commit={(text) => {
                const to = text.trim();
                if (!slugSchema.safeParse(to).success) return 'Small letters, digits and single hyphens.';
                if (to !== name && Object.hasOwn(tree.facts, to)) return 'There is a fact of this name.';
                put('Rename a fact', (now) => rekeyed(now, name, to));
                return undefined;
              }}
            />
            <ChoiceField
              label="What it is"
              value={isChoice(fact) ? '' : fact.quantity}
              choices={KIND_CHOICES}
              commit={(value) => put('Change a fact', (now) => ({ ...now, [name]: ofKind(fact, value) }))}
            />
            <ListButtons
              of={name}
              at={at}
              count={1}
              move={() => undefined}
              remove={() => put('Remove a fact', (now) => Object.fromEntries(Object.entries(now).filter(([other]) => other !== name)))}
            />
          </div>
          <TextField
            label="Asked as"
            value={fact.ask}
            commit={(text) => {
              if (text.trim() === '') return 'Say how the tech is asked.';
              put('Change a fact', (now) => ({ ...now, [name]: { ...fact, ask: text.trim() } }));
              return undefined;
            }}
          />
          {isChoice(fact) ? (
            <ChoiceFields fact={fact} commit={(next) => put('Change a fact', (now) => ({ ...now, [name]: next }))} />
          ) : (
            <QuantityFields fact={fact} commit={(next) => put('Change a fact', (now) => ({ ...now, [name]: next }))} />
          )}
        </div>
      ))}
    </FormSection>
  );
}

function ofKind(fact: FactSpec, value: string): FactSpec {
  const quantity = QUANTITY_KIND_NAMES.find((one) => one === value);
  if (!quantity) return { ...NEW_CHOICE, ask: fact.ask };
  const { unit } = quantityKind(quantity);
  const text = (number: string): string => (unit === '' ? number : `${number} ${unit}`);
  return { quantity, ask: fact.ask, usual: text('10'), from: text('5'), to: text('20') };
}

function ChoiceFields({ fact, commit }: { readonly fact: ChoiceFact; readonly commit: (fact: ChoiceFact) => void }) {
  return (
    <div className="field-row">
      <TextField
        label="Choices, with commas"
        isCode
        value={fact.choices.join(', ')}
        commit={(text) => {
          const choices = slugList(text);
          const problem = namesProblem(choices, 2);
          if (problem !== undefined) return problem;
          commit({ ...fact, choices, usual: choices.includes(fact.usual) ? fact.usual : (choices[0] ?? fact.usual) });
          return undefined;
        }}
      />
      <ChoiceField
        label="Usual"
        value={fact.usual}
        choices={fact.choices.map((value) => ({ value, text: value }))}
        commit={(usual) => commit({ ...fact, usual })}
      />
    </div>
  );
}

function QuantityFields({ fact, commit }: { readonly fact: QuantityFact; readonly commit: (fact: QuantityFact) => void }) {
  const field = (key: 'usual' | 'from' | 'to', label: string) => (
    <TextField
      label={label}
      value={fact[key]}
      commit={(text) => {
        const read = readTypedValue(text, fact.quantity);
        if (!read.ok || read.value.si === 'open') return `A number with its unit, such as ${quantityKind(fact.quantity).unit || '10'}.`;
        commit({ ...fact, [key]: text.trim() });
        return undefined;
      }}
    />
  );
  return (
    <div className="field-row">
      {field('usual', 'Usual')}
      {field('from', 'From')}
      {field('to', 'To')}
    </div>
  );
}
