import type { Step, StepKind } from '../../../engine/tree/index.ts';
import { KIND_WORDS } from '../../document/step-task.ts';
import { removedAt, replacedAt } from '../list-edits.ts';
import { useEditing } from '../page/edit-context.ts';
import { changeKind, duplicateStep, leadsTo, moveStep, removeStep } from '../step-edits.ts';
import { CautionsForm } from './cautions-form.tsx';
import { ComputedForm } from './computed-form.tsx';
import { ChoiceField, FormSection, ListButtons, NumberField, TextField } from './fields.tsx';
import { HeldSettings } from './held-settings.tsx';
import { ProseField } from './prose-field.tsx';
import { TaskForm } from './task-form.tsx';
import { WaysForm } from './ways-form.tsx';

const KIND_CHOICES = (Object.keys(KIND_WORDS) as StepKind[]).map((value) => ({ value, text: KIND_WORDS[value] }));

/** Everything that a step says, as fields. */
export function StepForm({ step }: { readonly step: Step }) {
  const { tree, edit, editStep, rename, select } = useEditing();
  const { id } = step;
  const at = tree.steps.findIndex((one) => one.id === id);
  const into = leadsTo(tree, id);
  return (
    <form className="step-form" aria-label={`Step: ${step.title}`} onSubmit={(event) => event.preventDefault()}>
      <div className="step-form-head">
        <span className="step-form-number">
          {at + 1} of {tree.steps.length}
        </span>
        <span className="step-form-actions">
          <button
            type="button"
            className="button-mark"
            disabled={at === 0}
            aria-label="Move the step up"
            title="Move up"
            onClick={() => edit('Move a step', (now) => moveStep(now, id, -1))}
          >
            ↑
          </button>
          <button
            type="button"
            className="button-mark"
            disabled={at === tree.steps.length - 1}
            aria-label="Move the step down"
            title="Move down"
            onClick={() => edit('Move a step', (now) => moveStep(now, id, 1))}
          >
            ↓
          </button>
          <button
            type="button"
            className="button-plain"
            onClick={() => {
              const made = duplicateStep(tree, id);
              edit('Duplicate a step', () => made.tree);
              select(made.id);
            }}
          >
            Duplicate
          </button>
          <button
            type="button"
            className="button-plain"
            disabled={tree.steps.length === 1}
            onClick={() => {
              const left = removeStep(tree, id);
              edit('Remove a step', () => left.tree);
              select(left.id);
            }}
          >
            Remove
          </button>
        </span>
      </div>
      <TextField label="Title" value={step.title} commit={(title) => rename(id, { title })} />
      <div className="field-row">
        <ChoiceField
          label="Kind"
          value={step.kind}
          choices={KIND_CHOICES}
          commit={(value) => {
            const kind = KIND_CHOICES.find((choice) => choice.value === value)?.value;
            if (kind) edit('Change the kind', (now) => changeKind(now, id, kind));
          }}
        />
        <NumberField
          label="Minutes"
          most={1440}
          value={step.minutes}
          commit={(minutes) => editStep('Change the minutes', id, (one) => ({ ...one, minutes }))}
        />
        <TextField label="Id" isCode value={id} commit={(to) => rename(id, { id: to.trim() })} />
      </div>
      <TaskForm step={step} />
      <HeldSettings step={step} />
      <ProseField
        label={step.kind === 'finding' ? 'Why' : 'What to do, in your words'}
        prose={step.prose}
        commit={(prose) => editStep('Change the text', id, (one) => ({ ...one, prose: [...prose] }))}
      />
      {step.kind === 'finding' && (
        <ProseField
          label="Repair"
          prose={step.repair}
          commit={(repair) => editStep('Change the repair', id, (one) => (one.kind === 'finding' ? { ...one, repair: [...repair] } : one))}
        />
      )}
      <ComputedForm step={step} />
      <WaysForm step={step} />
      <CautionsForm
        title="Cautions on this step"
        cautions={step.cautions}
        commit={(cautions, label) => editStep(label, id, (one) => ({ ...one, cautions }))}
      />
      <PhotosForm step={step} />
      {into.length > 0 && (
        <p className="step-form-into">
          Reached from{' '}
          {into.map((from, index) => (
            <span key={from.id}>
              {index > 0 && ', '}
              <button type="button" className="button-plain" onClick={() => select(from.id)}>
                {from.title}
              </button>
            </span>
          ))}
        </p>
      )}
    </form>
  );
}

function PhotosForm({ step }: { readonly step: Step }) {
  const { editStep } = useEditing();
  const commit = (photos: string[], label: string): void => editStep(label, step.id, (one) => ({ ...one, photos }));
  return (
    <FormSection
      title="Photos to ask for"
      action={
        <button type="button" className="button-plain" onClick={() => commit([...step.photos, 'The leads in place'], 'Ask for a photo')}>
          Ask for a photo
        </button>
      }
    >
      {step.photos.map((ask, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a photo is known by its place while it is typed.
        <div key={at} className="photo-form">
          <TextField
            label={`Photo ${at + 1}`}
            isLabelHidden
            value={ask}
            commit={(text) => {
              if (text.trim() === '') return 'Say what the photo shows.';
              commit(replacedAt(step.photos, at, text.trim()), 'Change a photo');
              return undefined;
            }}
          />
          <ListButtons of={ask} at={at} count={1} move={() => undefined} remove={() => commit(removedAt(step.photos, at), 'Remove a photo')} />
        </div>
      ))}
    </FormSection>
  );
}
