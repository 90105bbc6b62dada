import { readMeterAccuracy, showMeterAccuracy } from '../../../engine/quantity/index.ts';
import type { Tree } from '../../../engine/tree/index.ts';
import { useEditing } from '../page/edit-context.ts';
import { CautionsForm } from './cautions-form.tsx';
import { FactsForm } from './facts-form.tsx';
import { CheckField, ChoiceField, FormSection, TextField } from './fields.tsx';
import { ProseField } from './prose-field.tsx';
import { SettingsForm } from './settings-form.tsx';

/** What stands before the first step: the tree's name, what it is judged by, its facts and settings, and the opening. */
export function OpeningForm() {
  const { tree, names, edit } = useEditing();
  const benches = [...new Set([...Object.keys(names.benches), ...tree.benches])];
  const put = (label: string, change: Partial<Tree>): void => edit(label, (now) => ({ ...now, ...change }));
  return (
    <form className="step-form" aria-label="The tree itself" onSubmit={(event) => event.preventDefault()}>
      <TextField
        label="Title of the tree"
        value={tree.title}
        commit={(text) => {
          if (text.trim() === '') return 'The tree needs a title.';
          put('Change the title', { title: text.trim() });
          return undefined;
        }}
      />
      <TextField
        label="Complaint"
        value={tree.complaint}
        hint="What the customer says, or the tech finds."
        commit={(text) => {
          if (text.trim() === '') return 'The tree needs a complaint.';
          put('Change the complaint', { complaint: text.trim() });
          return undefined;
        }}
      />
      <ProseField
        label="Opening"
        prose={tree.opening.prose}
        commit={(prose) => edit('Change the opening', (now) => ({ ...now, opening: { ...now.opening, prose: [...prose] } }))}
      />
      <CautionsForm
        title="Cautions on every step"
        cautions={tree.opening.cautions}
        commit={(cautions, label) => edit(label, (now) => ({ ...now, opening: { ...now.opening, cautions } }))}
      />
      <FormSection title="Benches it is proved on">
        {benches.length === 0 ? (
          <p className="field-hint">There is no bench on the shelf yet. A tree without one can be walked; there is less to prove.</p>
        ) : (
          <div className="check-fields">
            {benches.map((bench) => (
              <CheckField
                key={bench}
                label={names.benches[bench] ? bench : `${bench} (not there)`}
                isChecked={tree.benches.includes(bench)}
                commit={(isUsed) =>
                  put('Change the benches', { benches: isUsed ? [...tree.benches, bench] : tree.benches.filter((one) => one !== bench) })
                }
              />
            ))}
          </div>
        )}
      </FormSection>
      <FactsForm />
      <SettingsForm />
      <FormSection title="Judged by">
        <TextField
          label="Meter accuracy"
          value={tree.meter}
          commit={(text) => {
            const read = readMeterAccuracy(text);
            if (!read.ok) return 'As a data sheet gives it: 1 % + 3 counts.';
            put('Change the meter', { meter: showMeterAccuracy(read.value) });
            return undefined;
          }}
        />
        <RecheckFields />
        <ChoiceField
          label="Handoff, where “cannot” leads"
          value={tree.handoff ?? ''}
          choices={[
            { value: '', text: 'the first handoff of the tree' },
            ...tree.steps.filter(({ kind }) => kind === 'handoff').map(({ id, title }) => ({ value: id, text: title })),
          ]}
          commit={(handoff) => edit('Change the handoff', ({ handoff: _before, ...rest }) => (handoff === '' ? rest : { ...rest, handoff }))}
        />
      </FormSection>
    </form>
  );
}

/** The step that shows the complaint gone, and which of its ways means so. */
function RecheckFields() {
  const { tree, edit } = useEditing();
  const { recheck } = tree;
  const steps = tree.steps.flatMap((step) => ('ways' in step && step.ways.length > 0 ? [step] : []));
  const ways = steps.find(({ id }) => id === recheck?.step)?.ways ?? [];
  return (
    <div className="field-row">
      <ChoiceField
        label="Recheck: the step that shows it gone"
        value={recheck?.step ?? ''}
        choices={[{ value: '', text: 'none' }, ...steps.map(({ id, title }) => ({ value: id, text: title }))]}
        commit={(id) =>
          edit('Change the recheck', ({ recheck: _before, ...rest }) => {
            const passes = steps.find((step) => step.id === id)?.ways[0]?.on;
            return id === '' || passes === undefined ? rest : { ...rest, recheck: { step: id, passes } };
          })
        }
      />
      {recheck && (
        <ChoiceField
          label="when it shows"
          value={recheck.passes}
          choices={ways.map(({ on }) => ({ value: on, text: on }))}
          commit={(passes) => edit('Change the recheck', (now) => ({ ...now, recheck: { ...recheck, passes } }))}
        />
      )}
    </div>
  );
}
