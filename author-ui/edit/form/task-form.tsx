import {
  NEEDS_DEAD_CIRCUIT,
  QUANTITY_KIND_NAMES,
  type QuantityKindName,
  quantityKind,
  UNIT_SPELLINGS,
  unitOf,
} from '../../../engine/quantity/index.ts';
import {
  type AskStep,
  type FindingStep,
  type HandoffStep,
  isChoice,
  type LookStep,
  type ReadingStep,
  type Step,
  slugSchema,
} from '../../../engine/tree/index.ts';
import { useEditing } from '../page/edit-context.ts';
import { ActionList, PointField } from './action-list.tsx';
import { CheckField, ChoiceField, TextField } from './fields.tsx';
import { knownNames } from './known-names.ts';

/** Kinds that are read between two points; all others are read at a place. */
const BETWEEN: ReadonlySet<QuantityKindName> = new Set([...NEEDS_DEAD_CIRCUIT, 'ac-voltage', 'dc-voltage', 'frequency']);
const VOLTS: ReadonlySet<QuantityKindName> = new Set(['ac-voltage', 'dc-voltage']);
const KIND_CHOICES = QUANTITY_KIND_NAMES.map((value) => ({ value, text: quantityKind(value).label }));

/** The fields that only steps of one kind have. */
export function TaskForm({ step }: { readonly step: Step }) {
  switch (step.kind) {
    case 'reading':
      return <ReadingForm step={step} />;
    case 'look':
      return <LookForm step={step} />;
    case 'act':
      return <ActionList step={step} />;
    case 'ask':
      return <AskForm step={step} />;
    case 'finding':
      return <FindingForm step={step} />;
    case 'handoff':
      return <HandoffForm step={step} />;
  }
}

/** A step without one of its keys: a key that says nothing is not written. */
function without<S extends Step, K extends keyof S>(step: S, key: K): S {
  const { [key]: _gone, ...rest } = step;
  return rest as unknown as S;
}

function useStepKind<S extends Step>(step: S): (label: string, change: (one: S) => S) => void {
  const { editStep } = useEditing();
  return (label, change) => editStep(label, step.id, (one) => (one.kind === step.kind ? change(one as S) : one));
}

function ReadingForm({ step }: { readonly step: ReadingStep }) {
  const { tree, facts, names } = useEditing();
  const put = useStepKind(step);
  const known = knownNames(tree, names);
  const points = [...known.terminals, ...known.leads];
  const isBetween = BETWEEN.has(step.takes);
  const { dimension } = quantityKind(step.takes);
  const units = UNIT_SPELLINGS.filter((spelling) => unitOf(spelling)?.dimension === dimension).map((value) => ({ value, text: value }));
  const settable = Object.entries(facts).filter(([, fact]) => !isChoice(fact) && quantityKind(fact.quantity).dimension === dimension);
  const [red = '', black = ''] = step.across ?? [];
  return (
    <div className="task-form">
      <ChoiceField
        label="Takes"
        value={step.takes}
        choices={KIND_CHOICES}
        commit={(value) => {
          const takes = QUANTITY_KIND_NAMES.find((one) => one === value);
          if (takes) put('Change what is read', (one) => fitted(without(without(one, 'unit'), 'sets'), takes));
        }}
      />
      {isBetween ? (
        <div className="field-row">
          <PointField
            label="Red lead on"
            isLabelShown
            value={red}
            offers={points}
            commit={(point) =>
              put('Change the points', (one) => ({ ...one, across: [point, black || (points.find((other) => other !== point) ?? 'C')] }))
            }
          />
          <PointField
            label="Black lead on"
            isLabelShown
            value={black}
            offers={points}
            commit={(point) =>
              put('Change the points', (one) => ({ ...one, across: [red || (points.find((other) => other !== point) ?? 'R'), point] }))
            }
          />
        </div>
      ) : (
        <TextField
          label="At"
          value={step.at ?? ''}
          offers={known.places}
          commit={(text) => {
            put('Change the place', (one) => (text.trim() === '' ? without(one, 'at') : { ...one, at: text.trim() }));
            return undefined;
          }}
        />
      )}
      <div className="field-row">
        <ChoiceField
          label="Typed in"
          value={step.unit ?? ''}
          choices={[{ value: '', text: `${quantityKind(step.takes).unit || 'plain number'} as usual` }, ...units]}
          commit={(unit) => put('Change the unit', (one) => (unit === '' ? without(one, 'unit') : { ...one, unit }))}
        />
        <ChoiceField
          label="Tells the fact"
          value={step.sets ?? ''}
          choices={[{ value: '', text: 'none' }, ...settable.map(([value]) => ({ value, text: value }))]}
          commit={(sets) => put('Change the fact', (one) => (sets === '' ? without(one, 'sets') : { ...one, sets }))}
        />
      </div>
      {(VOLTS.has(step.takes) || step.input || step.proves) && (
        <div className="check-fields">
          <CheckField
            label="Low-impedance input, so that stray voltage does not show"
            isChecked={step.input === 'low'}
            commit={(isLow) => put('Change the input', (one) => (isLow ? { ...one, input: 'low' } : without(one, 'input')))}
          />
          <CheckField
            label="Proves these two points dead"
            isChecked={step.proves === 'dead'}
            commit={(isProof) => put('Change what it proves', (one) => (isProof ? { ...one, proves: 'dead' } : without(one, 'proves')))}
          />
        </div>
      )}
    </div>
  );
}

/** A reading of another kind: at a place or between points, as the kind needs, and without what only stands on volts. */
function fitted(step: ReadingStep, takes: QuantityKindName): ReadingStep {
  const moved = BETWEEN.has(takes) ? without(step, 'at') : without(step, 'across');
  const volts = VOLTS.has(takes) ? moved : without(without(moved, 'input'), 'proves');
  return { ...volts, takes };
}

function LookForm({ step }: { readonly step: LookStep }) {
  const { tree, names } = useEditing();
  const put = useStepKind(step);
  const { signs } = knownNames(tree, names);
  return (
    <div className="task-form">
      <TextField
        label="Look at"
        value={step.at ?? ''}
        commit={(text) => {
          put('Change where to look', (one) => (text.trim() === '' ? without(one, 'at') : { ...one, at: text.trim() }));
          return undefined;
        }}
      />
      {(signs.length > 0 || step.sign !== undefined) && (
        <ChoiceField
          label="Sign of the bench"
          value={step.sign ?? ''}
          choices={[{ value: '', text: 'none' }, ...signs.map((value) => ({ value, text: value }))]}
          hint={step.sign === undefined ? undefined : 'The first way on is what is seen while the sign holds.'}
          commit={(sign) => put('Change the sign', (one) => (sign === '' ? without(one, 'sign') : { ...one, sign }))}
        />
      )}
    </div>
  );
}

function AskForm({ step }: { readonly step: AskStep }) {
  const { facts } = useEditing();
  const put = useStepKind(step);
  const choices = Object.entries(facts).map(([value, { ask }]) => ({ value, text: `${value}: ${ask}` }));
  return (
    <ChoiceField
      label="Fact to ask for"
      value={step.fact}
      choices={choices}
      hint={choices.length === 0 ? 'The tree has no facts yet. Add one on the page of the tree.' : undefined}
      commit={(fact) => put('Change the fact', (one) => ({ ...one, fact }))}
    />
  );
}

function FindingForm({ step }: { readonly step: FindingStep }) {
  const { tree, names } = useEditing();
  const put = useStepKind(step);
  const known = knownNames(tree, names).faults;
  const faults = [...new Set([...known, ...step.faults])];
  const typed = (
    <TextField
      label={known.length > 0 ? 'Other faults' : 'Faults, with commas'}
      isCode
      value={step.faults.filter((fault) => !known.includes(fault)).join(', ')}
      hint={known.length === 0 ? 'Empty: nothing wrong found.' : undefined}
      commit={(text) => {
        const named = text
          .split(',')
          .map((one) => one.trim())
          .filter(Boolean);
        if (named.some((one) => !slugSchema.safeParse(one).success)) return 'Small letters, digits and single hyphens.';
        put('Change the faults', (one) => ({ ...one, faults: [...one.faults.filter((fault) => known.includes(fault)), ...named] }));
        return undefined;
      }}
    />
  );
  if (known.length === 0) return typed;
  return (
    <fieldset className="form-section fault-choice">
      <legend>Faults that this finding names</legend>
      <div className="check-fields">
        {faults.map((fault) => (
          <CheckField
            key={fault}
            label={known.includes(fault) ? fault : `${fault} (on no bench)`}
            isChecked={step.faults.includes(fault)}
            commit={(isNamed) =>
              put('Change the faults', (one) => ({
                ...one,
                faults: isNamed ? [...one.faults, fault] : one.faults.filter((other) => other !== fault),
              }))
            }
          />
        ))}
      </div>
      <p className="field-hint">{step.faults.length === 0 ? 'None chosen: nothing wrong found.' : `${step.faults.length} chosen.`}</p>
    </fieldset>
  );
}

function HandoffForm({ step }: { readonly step: HandoffStep }) {
  const put = useStepKind(step);
  return (
    <TextField
      label="Whom to call"
      value={step.to}
      commit={(text) => {
        if (text.trim() === '') return 'Say whom to call.';
        put('Change whom to call', (one) => ({ ...one, to: text.trim() }));
        return undefined;
      }}
    />
  );
}
