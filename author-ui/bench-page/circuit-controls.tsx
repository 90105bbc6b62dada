import { useState } from 'react';
import {
  asFound,
  type Bench,
  namesOf,
  type Situation,
  withFacts,
  withFault,
  withJumper,
  withLanded,
  withLifted,
  withoutFault,
  withoutJumper,
  withSetting,
} from '../../engine/bench/index.ts';
import { readTypedValue, typedValueWords } from '../../engine/quantity/index.ts';

/** Two at once are what a bench can say something about. */
const MOST_FAULTS = 2;

type CircuitControlsProps = {
  readonly bench: Bench;
  readonly situation: Situation;
  readonly set: (situation: Situation) => void;
  readonly points: readonly string[];
};

/** What is done to the circuit: settings, facts, faults, jumpers and lifted leads. */
export function CircuitControls(props: CircuitControlsProps) {
  const { bench, situation, set } = props;
  const { leads } = namesOf(bench);
  return (
    <section className="controls" aria-labelledby="controls-title">
      <div className="controls-head">
        <h2 id="controls-title">Circuit now</h2>
        <button type="button" className="button button-quiet" onClick={() => set(asFound(bench))}>
          As found
        </button>
      </div>
      <div className="controls-groups">
        <div>
          {Object.entries(bench.settings).map(([setting, states]) => (
            <fieldset key={setting} className="switch">
              <legend>{setting}</legend>
              <div>
                {states.map((state) => (
                  <label key={state}>
                    <input
                      type="radio"
                      name={`setting-${setting}`}
                      checked={situation.settings[setting] === state}
                      onChange={() => set(withSetting(situation, setting, state))}
                    />
                    <span>{state}</span>
                  </label>
                ))}
              </div>
            </fieldset>
          ))}
          {Object.entries(bench.facts).map(([fact, spec]) => (
            <FactInput key={`${fact} ${spec.usual}`} name={fact} spec={spec} onValue={(si) => set(withFacts(situation, { [fact]: si }))} />
          ))}
        </div>
        <Faults {...props} />
        <div>
          <Jumpers {...props} />
          {leads.length > 0 && (
            <fieldset className="checks">
              <legend>Lifted leads</legend>
              {leads.map((lead) => (
                <label key={lead}>
                  <input
                    type="checkbox"
                    checked={situation.lifted.includes(lead)}
                    onChange={(event) => set(event.target.checked ? withLifted(situation, lead) : withLanded(situation, lead))}
                  />{' '}
                  {lead}
                </label>
              ))}
            </fieldset>
          )}
        </div>
      </div>
    </section>
  );
}

const unitIn = (text: string): string | undefined => /^\s*[-+.\d]+\s*(\S.*)$/.exec(text)?.[1];

type FactInputProps = { readonly name: string; readonly spec: Bench['facts'][string]; readonly onValue: (si: number) => void };

function FactInput({ name, spec, onValue }: FactInputProps) {
  const [typed, setTyped] = useState(spec.usual);
  const [wrong, setWrong] = useState<string>();
  const change = (text: string): void => {
    setTyped(text);
    const value = readTypedValue(text, spec.quantity, unitIn(spec.usual));
    if (!value.ok) {
      const { message, fix } = typedValueWords(value.problem);
      setWrong(`${message} ${fix} The circuit still has the value before.`);
    } else if (value.value.si === 'open') setWrong('A fact is a number. The circuit still has the value before.');
    else {
      setWrong(undefined);
      onValue(value.value.si);
    }
  };
  return (
    <p className="fact-input">
      <label htmlFor={`fact-${name}`}>{spec.ask}</label>
      <input
        id={`fact-${name}`}
        value={typed}
        autoComplete="off"
        aria-describedby={`range-${name}`}
        onChange={(event) => change(event.target.value)}
      />
      <span id={`range-${name}`}>{wrong ?? `usually ${spec.usual}, from ${spec.from} to ${spec.to}`}</span>
    </p>
  );
}

function Faults({ bench, situation, set }: CircuitControlsProps) {
  const [query, setQuery] = useState('');
  const all = Object.entries(bench.faults);
  const words = query.toLowerCase().trim();
  const found = all.filter(
    ([name, { part, says }]) => situation.faults.includes(name) || `${name} ${part} ${says ?? ''}`.toLowerCase().includes(words),
  );
  const full = situation.faults.length >= MOST_FAULTS;
  return (
    <fieldset className="checks faults">
      <legend>Faults, one or two at once</legend>
      {all.length > 8 && (
        <input type="search" value={query} placeholder="Find a fault" aria-label="Find a fault" onChange={(event) => setQuery(event.target.value)} />
      )}
      {all.length === 0 && <p>This bench has no faults yet; add them below.</p>}
      <div className="faults-list">
        {found.map(([name, { part, becomes, says }]) => {
          const on = situation.faults.includes(name);
          return (
            <label key={name} title={says}>
              <input
                type="checkbox"
                checked={on}
                disabled={!on && full}
                onChange={() => set(on ? withoutFault(situation, name) : withFault(situation, name))}
              />{' '}
              {name}{' '}
              <span>
                {part} becomes {becomes}
              </span>
            </label>
          );
        })}
        {found.length === 0 && all.length > 0 && <p>No fault has these words.</p>}
      </div>
    </fieldset>
  );
}

function Jumpers({ situation, set, points }: CircuitControlsProps) {
  const [from, setFrom] = useState(points[0] ?? '');
  const [to, setTo] = useState(points[1] ?? '');
  const ends = [
    { label: 'from', point: from, choose: setFrom },
    { label: 'to', point: to, choose: setTo },
  ];
  return (
    <fieldset className="checks">
      <legend>Jumpers</legend>
      {situation.jumpers.map(([a, b]) => (
        <p key={`${a} ${b}`}>
          {a} to {b}{' '}
          <button
            type="button"
            className="button-plain"
            aria-label={`Remove the jumper ${a} to ${b}`}
            onClick={() => set(withoutJumper(situation, a, b))}
          >
            Remove
          </button>
        </p>
      ))}
      <p className="jumper-add">
        {ends.map(({ label, point, choose }) => (
          <label key={label}>
            {label}{' '}
            <select value={point} onChange={(event) => choose(event.target.value)}>
              {points.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          </label>
        ))}
        <button type="button" className="button button-quiet" disabled={from === to} onClick={() => set(withJumper(situation, from, to))}>
          Put on
        </button>
      </p>
    </fieldset>
  );
}
