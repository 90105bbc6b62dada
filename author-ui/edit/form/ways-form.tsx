import { type FactSpec, isChoice, type Step, type StepKind, type Way, waysOf } from '../../../engine/tree/index.ts';
import { type BandForm, bandText } from '../band-form.ts';
import { movedAt, removedAt, replacedAt } from '../list-edits.ts';
import { useEditing } from '../page/edit-context.ts';
import { addStep, changeStep, changeWays } from '../step-edits.ts';
import { BandDrawing } from './band-drawing.tsx';
import { BandFields } from './band-fields.tsx';
import { ChoiceField, FormSection, ListButtons, TextField } from './fields.tsx';
import { TargetField } from './target-field.tsx';

/** What a way's label is, on this step: a band, one of a fact's choices, or words of its own. */
function labelKind(step: Step, facts: Readonly<Record<string, FactSpec>>): 'band' | 'choice' | 'done' | 'words' {
  if (step.kind === 'reading') return 'band';
  if (step.kind === 'act') return 'done';
  if (step.kind !== 'ask') return 'words';
  const fact = facts[step.fact];
  return fact && !isChoice(fact) ? 'band' : 'choice';
}

/** A label for one more way that no other has yet. */
function nextLabel(step: Step, facts: Readonly<Record<string, FactSpec>>, kind: ReturnType<typeof labelKind>): string {
  const taken = waysOf(step).map(({ on }) => on);
  const fact = step.kind === 'ask' ? facts[step.fact] : undefined;
  const wished = {
    band: step.kind === 'ask' && taken.length === 0 ? ['known'] : ['otherwise', 'open', 'below 1 V', 'above 1 V'],
    choice: [...(fact && isChoice(fact) ? fact.choices : []), 'known'],
    done: ['done'],
    words: ['yes', 'no', 'something else'],
  }[kind];
  const free = wished.find((on) => !taken.includes(on));
  return free ?? `${wished[0]} ${taken.length + 1}`;
}

/** The ways on of a step: what leads there, where it leads, and in what order. */
export function WaysForm({ step }: { readonly step: Step }) {
  const { tree, facts, edit, editStep, select } = useEditing();
  if (!('ways' in step)) return null;
  const ways = waysOf(step);
  const kind = labelKind(step, facts);
  const commit = (next: readonly Way[], label = 'Change the ways on'): void => edit(label, (now) => changeWays(now, step.id, next));
  /** A new step behind this one, and the way to it, as one step of work. */
  const leadToNew = (newKind: StepKind, lead: (to: { readonly step: string }) => (one: Step) => Step): void => {
    let made = '';
    edit('Add a step', (now) => {
      const added = addStep(now, newKind, step.id);
      made = added.id;
      return changeStep(added.tree, step.id, lead({ step: added.id }));
    });
    if (made !== '') select(made);
  };
  const handoff = tree.steps.findLast((one) => one.kind === 'handoff') ?? tree.steps.at(-1);
  const full = kind === 'done' && ways.length > 0;
  return (
    <FormSection
      title="Ways on"
      action={
        full || !handoff ? undefined : (
          <button
            type="button"
            className="button-plain"
            onClick={() => commit([...ways, { on: nextLabel(step, facts, kind), to: { step: handoff.id } }], 'Add a way on')}
          >
            {kind === 'band' ? 'Add a band' : 'Add a way on'}
          </button>
        )
      }
    >
      {kind === 'band' && <BandDrawing step={step} ways={ways} commit={(next) => commit(next, 'Move an edge')} />}
      <ol className="ways-form">
        {ways.map((way, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a way is known by its place while its label is typed.
          <li key={at}>
            <WayLabel step={step} kind={kind} way={way} at={at} ways={ways} commit={commit} />
            <TargetField
              label={`Where ${way.on} leads`}
              to={way.to}
              commit={(to) => to && commit(replacedAt(ways, at, { ...way, to }), 'Lead a way elsewhere')}
              commitNew={(newKind) =>
                leadToNew(newKind, (to) => (one) => ('ways' in one ? { ...one, ways: replacedAt(one.ways, at, { ...way, to }) } : one))
              }
            />
            <ListButtons
              of={way.on}
              at={at}
              count={ways.length}
              move={(by) => commit(movedAt(ways, at, by), 'Move a way on')}
              remove={() => commit(removedAt(ways, at), 'Remove a way on')}
            />
          </li>
        ))}
        <li className="way-form-cannot">
          <span className="field-label">cannot</span>
          <TargetField
            label="Where cannot leads"
            to={step.cannot}
            none="the tree's handoff"
            commit={(to) => editStep('Change where cannot leads', step.id, (one) => withCannot(one, to))}
            commitNew={(newKind) => leadToNew(newKind, (to) => (one) => withCannot(one, to))}
          />
        </li>
      </ol>
    </FormSection>
  );
}

function withCannot(step: Step, to: Step['cannot']): Step {
  const { cannot: _before, ...rest } = step;
  return to ? { ...rest, cannot: to } : rest;
}

type WayLabelProps = {
  readonly step: Step;
  readonly kind: ReturnType<typeof labelKind>;
  readonly way: Way;
  readonly at: number;
  readonly ways: readonly Way[];
  readonly commit: (ways: readonly Way[], label?: string) => void;
};

function WayLabel({ step, kind, way, at, ways, commit }: WayLabelProps) {
  const { facts } = useEditing();
  const put = (on: string): string | undefined => {
    const label = on.trim();
    if (label === '') return 'Say what leads this way.';
    if (ways.some((other, place) => place !== at && other.on === label)) return 'Another way has this label.';
    if (label === 'cannot') return 'Where “cannot” leads is chosen below.';
    commit(replacedAt(ways, at, { ...way, on: label }), 'Change what leads a way');
    return undefined;
  };
  if (kind === 'done' && way.on === 'done') return <span className="field-label">done</span>;
  if (kind === 'band' && way.on !== 'known') {
    return (
      <BandFields
        step={step}
        at={at}
        on={way.on}
        ways={ways}
        put={(form: BandForm) => put(bandText(form))}
        commit={(next) => commit(next, 'Move an edge')}
      />
    );
  }
  const fact = step.kind === 'ask' ? facts[step.fact] : undefined;
  if (kind !== 'words' && fact) {
    const choices = [...(isChoice(fact) ? fact.choices : []), 'known'].map((value) => ({ value, text: value }));
    return <ChoiceField label={`Way ${at + 1}`} isLabelHidden value={way.on} choices={choices} commit={(on) => void put(on)} />;
  }
  return <TextField label={`Way ${at + 1}`} isLabelHidden value={way.on} commit={put} />;
}
