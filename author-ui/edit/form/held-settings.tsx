import type { SettingHold, Step } from '../../../engine/tree/index.ts';
import { removedAt, replacedAt } from '../list-edits.ts';
import { useEditing } from '../page/edit-context.ts';
import { ChoiceField, ListButtons } from './fields.tsx';
import { knownNames } from './known-names.ts';

/** The settings that must hold while a step is done. */
export function HeldSettings({ step }: { readonly step: Step }) {
  const { tree, names, editStep } = useEditing();
  const { settings } = knownNames(tree, names);
  const known = Object.keys(settings);
  const commit = (held: SettingHold[]): void => editStep('Change what must hold', step.id, (one) => ({ ...one, while: held }));
  const first = known.find((name) => !step.while.some(({ setting }) => setting === name));
  if (known.length === 0 && step.while.length === 0) return null;
  return (
    <div className="held-settings">
      <span className="field-label">While</span>
      {step.while.map((hold, at) => (
        <div key={hold.setting} className="held-setting">
          <ChoiceField
            label="Setting that must hold"
            isLabelHidden
            value={hold.setting}
            choices={known.map((name) => ({ value: name, text: name }))}
            commit={(setting) => commit(replacedAt(step.while, at, { setting, state: settings[setting]?.[0] ?? hold.state }))}
          />
          <ChoiceField
            label={`State of ${hold.setting}`}
            isLabelHidden
            value={hold.state}
            choices={(settings[hold.setting] ?? []).map((state) => ({ value: state, text: state }))}
            commit={(state) => commit(replacedAt(step.while, at, { ...hold, state }))}
          />
          <ListButtons of={hold.setting} at={at} count={1} move={() => undefined} remove={() => commit(removedAt(step.while, at))} />
        </div>
      ))}
      {first !== undefined && (
        <button
          type="button"
          className="button-plain"
          onClick={() => commit([...step.while, { setting: first, state: settings[first]?.at(-1) ?? 'on' }])}
        >
          {step.while.length === 0 ? 'A setting must hold' : 'And another'}
        </button>
      )}
    </div>
  );
}
