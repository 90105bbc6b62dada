import { type Action, type ActStep, terminalSchema } from '../../../engine/tree/index.ts';
import { actionWords } from '../../document/step-task.ts';
import { movedAt, removedAt, replacedAt } from '../list-edits.ts';
import { useEditing } from '../page/edit-context.ts';
import { ChoiceField, ListButtons, TextField } from './fields.tsx';
import { type KnownNames, knownNames } from './known-names.ts';

const ACTION_WORDS: Readonly<Record<Action['do'], string>> = {
  turn: 'Turn a setting',
  jumper: 'Jumper two points',
  'remove-jumper': 'Remove a jumper',
  lift: 'Lift a lead',
  land: 'Land a lead',
  'prove-meter': 'Prove the meter',
};

const ACTION_CHOICES = (Object.keys(ACTION_WORDS) as Action['do'][]).map((value) => ({ value, text: ACTION_WORDS[value] }));

function newAction(what: Action['do'], known: KnownNames): Action {
  const [a = 'R', b = 'C'] = known.terminals;
  const [setting = 'main-power'] = Object.keys(known.settings);
  switch (what) {
    case 'turn':
      return { do: what, setting, state: known.settings[setting]?.at(-1) ?? 'off' };
    case 'jumper':
    case 'remove-jumper':
      return { do: what, from: a, to: b };
    case 'lift':
    case 'land':
      return { do: what, lead: known.leads[0] ?? a };
    case 'prove-meter':
      return { do: what };
  }
}

/** What an act has the tech do, in order, each built from choices. */
export function ActionList({ step }: { readonly step: ActStep }) {
  const { tree, names, editStep } = useEditing();
  const known = knownNames(tree, names);
  const commit = (does: Action[]): void => editStep('Change what is done', step.id, (one) => (one.kind === 'act' ? { ...one, does } : one));
  return (
    <div className="action-list">
      <ol>
        {step.does.map((action, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the same may be done twice, and an action is known by its place.
          <li key={at}>
            <ChoiceField
              label={`Action ${at + 1}`}
              isLabelHidden
              value={action.do}
              choices={ACTION_CHOICES}
              commit={(what) => {
                const chosen = ACTION_CHOICES.find(({ value }) => value === what);
                if (chosen) commit(replacedAt(step.does, at, newAction(chosen.value, known)));
              }}
            />
            <ActionFields action={action} known={known} commit={(next) => commit(replacedAt(step.does, at, next))} />
            <ListButtons
              of={actionWords(action)}
              at={at}
              count={step.does.length}
              move={(by) => commit(movedAt(step.does, at, by))}
              remove={() => commit(removedAt(step.does, at))}
            />
          </li>
        ))}
      </ol>
      <button type="button" className="button-plain" onClick={() => commit([...step.does, newAction('turn', known)])}>
        Add an action
      </button>
    </div>
  );
}

type ActionFieldsProps = { readonly action: Action; readonly known: KnownNames; readonly commit: (action: Action) => void };

function ActionFields({ action, known, commit }: ActionFieldsProps) {
  switch (action.do) {
    case 'turn': {
      const settings = Object.keys(known.settings);
      return (
        <>
          <ChoiceField
            label="Setting"
            isLabelHidden
            value={action.setting}
            choices={settings.map((value) => ({ value, text: value }))}
            commit={(setting) => commit({ ...action, setting, state: known.settings[setting]?.[0] ?? action.state })}
          />
          <ChoiceField
            label="State"
            isLabelHidden
            value={action.state}
            choices={(known.settings[action.setting] ?? []).map((value) => ({ value, text: value }))}
            commit={(state) => commit({ ...action, state })}
          />
        </>
      );
    }
    case 'jumper':
    case 'remove-jumper':
      return (
        <>
          <PointField label="From" value={action.from} offers={known.terminals} commit={(from) => commit({ ...action, from })} />
          <PointField label="To" value={action.to} offers={known.terminals} commit={(to) => commit({ ...action, to })} />
        </>
      );
    case 'lift':
    case 'land':
      return <PointField label="Lead" value={action.lead} offers={known.leads} commit={(lead) => commit({ ...action, lead })} />;
    case 'prove-meter':
      return null;
  }
}

type PointFieldProps = {
  readonly label: string;
  readonly value: string;
  readonly offers: readonly string[];
  readonly commit: (point: string) => void;
  readonly isLabelShown?: boolean;
};

/** A terminal or lead: any that the benches have, or one that is typed. */
export function PointField({ label, value, offers, commit, isLabelShown = false }: PointFieldProps) {
  return (
    <TextField
      label={label}
      isLabelHidden={!isLabelShown}
      isCode
      value={value}
      offers={offers}
      commit={(text) => {
        if (!terminalSchema.safeParse(text.trim()).success) return 'A point is letters, digits and / + _ . - without spaces.';
        commit(text.trim());
      }}
    />
  );
}
