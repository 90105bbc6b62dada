import { NEEDS_DEAD_CIRCUIT, readTypedValue, typedValueWords } from '../../engine/quantity/index.ts';
import { type FactSpec, isChoice, jumperKey } from '../../engine/tree/index.ts';
import { factUnit } from '../../engine/walk/index.ts';
import { CheckField, ChoiceField, TextField } from '../edit/form/fields.tsx';
import type { TryBegin, TryOffer, TrySetup } from './try-state.ts';
import { startWords } from './try-words.ts';
import type { TryNow } from './use-try.ts';

type TrySetupFormProps = { readonly now: TryNow; readonly offer: TryOffer; readonly name: string; readonly shown: string };

/** What is tried: on which bench, with what wrong in it, in which house, and from where. */
export function TrySetupForm({ now, offer, name, shown }: TrySetupFormProps) {
  const { setup, begin, state } = now;
  const benches = Object.entries(offer.benches).map(([value, { title }]) => ({ value, text: title }));
  const bench = setup.bench === undefined ? undefined : offer.benches[setup.bench];
  const faults = Object.entries(bench?.faults ?? {}).map(([value, { says }]) => ({ value, text: says ?? value }));
  const selected = `${name}/${shown}`;
  const canBeginHere = Object.hasOwn(offer.titles, selected);
  const from = setup.from ?? selected;
  return (
    <div className="try-setup">
      {benches.length === 0 ? (
        <p className="pane-note">
          This tree names no bench, so type and choose what is found. Name one in “Tree and opening”, and the bench shows it.
        </p>
      ) : (
        <>
          <div className="try-case">
            <ChoiceField label="Bench" value={setup.bench ?? ''} choices={benches} commit={(to) => begin({ bench: to, fault: undefined })} />
            <ChoiceField
              label="Wrong in it"
              value={setup.fault ?? ''}
              choices={[{ value: '', text: 'nothing' }, ...faults]}
              commit={(fault) => begin({ fault: fault === '' ? undefined : fault })}
            />
          </div>
          <House setup={setup} offer={offer} begin={begin} />
        </>
      )}
      <div className="try-begin">
        <button type="button" className="button button-quiet" onClick={() => begin({ from: undefined })}>
          From the beginning
        </button>
        <button type="button" className="button button-quiet" disabled={!canBeginHere} onClick={() => begin({ from: selected })}>
          From the selected step
        </button>
      </div>
      {state && <p className="try-start">{startWords(state.start, offer.titles[from] ?? '', setup)}</p>}
      {state?.start.how === 'set' && <Circuit now={now} offer={offer} />}
    </div>
  );
}

/** The facts of the house: as usual, but for those that the author sets. */
function House({ setup, offer, begin }: { readonly setup: TrySetup; readonly offer: TryOffer; readonly begin: TryNow['begin'] }) {
  const ofBench = setup.bench === undefined ? {} : (offer.benches[setup.bench]?.facts ?? {});
  const specs: readonly (readonly [string, FactSpec])[] = Object.entries({ ...ofBench, ...offer.facts }).filter(([name]) => name !== offer.wiring);
  if (specs.length === 0) return null;
  const set = Object.keys(setup.facts).length;
  const put = (name: string, typed: string, usual: string): void => {
    const { [name]: _before, ...others } = setup.facts;
    begin({ facts: typed === '' || typed === usual ? others : { ...others, [name]: typed } });
  };
  return (
    <details className="try-house">
      <summary>The house: {set === 0 ? 'as usual' : set === 1 ? '1 fact not as usual' : `${set} facts not as usual`}</summary>
      <div className="try-facts">
        {specs.map(([name, spec]) =>
          isChoice(spec) ? (
            <ChoiceField
              key={name}
              label={spec.ask}
              value={setup.facts[name] ?? spec.usual}
              choices={spec.choices.map((value) => ({ value, text: value }))}
              commit={(to) => put(name, to, spec.usual)}
            />
          ) : (
            <TextField
              key={name}
              label={spec.ask}
              value={setup.facts[name] ?? spec.usual}
              hint={spec.from === spec.to ? undefined : `made for ${spec.from} to ${spec.to}`}
              commit={(text) => {
                const read = readTypedValue(text, spec.quantity, factUnit(spec));
                if (!read.ok && text.trim() !== '') return typedValueWords(read.problem).message;
                put(name, text.trim(), spec.usual);
                return undefined;
              }}
            />
          ),
        )}
      </div>
    </details>
  );
}

/** How the circuit stands where the try begins in the middle and no walk leads there. */
function Circuit({ now, offer }: { readonly now: TryNow; readonly offer: TryOffer }) {
  const { setup, begin, state } = now;
  const { begin: circuit } = setup;
  const put = (change: Partial<TryBegin>): void => begin({ begin: { ...circuit, ...change } });
  const needsDead = state?.step.kind === 'reading' && state.step.across && NEEDS_DEAD_CIRCUIT.has(state.step.takes);
  return (
    <fieldset className="try-circuit">
      <legend>The circuit as it begins</legend>
      <div className="field-row">
        {Object.entries(offer.settings).map(([setting, states]) => (
          <ChoiceField
            key={setting}
            label={setting}
            value={circuit.settings[setting] ?? states[0] ?? ''}
            choices={states.map((value, at) => ({ value, text: at === 0 ? `${value}, as found` : value }))}
            commit={(to) => put({ settings: { ...circuit.settings, [setting]: to } })}
          />
        ))}
      </div>
      <div className="check-fields">
        {offer.jumpers.map((ends) => {
          const isOn = circuit.jumpers.some((other) => jumperKey(...other) === jumperKey(...ends));
          return (
            <CheckField
              key={jumperKey(...ends)}
              label={`Jumper ${ends[0]} to ${ends[1]}`}
              isChecked={isOn}
              commit={(on) =>
                put({ jumpers: on ? [...circuit.jumpers, ends] : circuit.jumpers.filter((other) => jumperKey(...other) !== jumperKey(...ends)) })
              }
            />
          );
        })}
        {offer.leads.map((lead) => (
          <CheckField
            key={lead}
            label={`Lead ${lead} lifted`}
            isChecked={circuit.lifted.includes(lead)}
            commit={(on) => put({ lifted: on ? [...circuit.lifted, lead] : circuit.lifted.filter((other) => other !== lead) })}
          />
        ))}
        {needsDead && <CheckField label="Its two points proved dead" isChecked={circuit.dead} commit={(dead) => put({ dead })} />}
      </div>
    </fieldset>
  );
}
