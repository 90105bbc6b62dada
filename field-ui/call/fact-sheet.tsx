import { type SubmitEvent, useState } from 'react';
import { unitSign } from '../../engine/quantity/index.ts';
import { isChoice } from '../../engine/tree/index.ts';
import { type FactState, factUnit } from '../../engine/walk/index.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { Sheet } from '../frame/sheet.tsx';
import { assumedUnit, typedEcho } from '../pad/typed-echo.ts';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';
import { factText } from './fact-text.ts';

/** Tells one fact of the site. */
export function FactSheet({ fact, onClose }: { readonly fact: FactState; readonly onClose: () => void }) {
  const { send, writing } = useSession();
  const { spec, name } = fact;
  const tell = async (typed: string): Promise<void> => {
    if (await send({ type: 'told', fact: name, typed })) onClose();
  };
  return (
    <Sheet title={spec.ask} onClose={onClose}>
      {isChoice(spec) ? (
        // biome-ignore lint/a11y/useSemanticElements: each is a press of its own, not a form that is sent.
        <div className="choices" role="group" aria-label={spec.ask}>
          {spec.choices.map((choice) => (
            <button
              key={choice}
              type="button"
              className="choice"
              aria-pressed={fact.text === choice}
              disabled={writing}
              onClick={() => void tell(choice)}
            >
              <span className="choice-words">{plainWords(choice)}</span>
              {choice === spec.usual && <span className="choice-leads">usual</span>}
            </button>
          ))}
        </div>
      ) : (
        <FactNumber fact={fact} tell={tell} />
      )}
      <TroubleOfWalk />
    </Sheet>
  );
}

function FactNumber({ fact, tell }: { readonly fact: FactState; readonly tell: (typed: string) => Promise<void> }) {
  const { writing, forgetTrouble } = useSession();
  const [text, setText] = useState('');
  const { spec } = fact;
  if (isChoice(spec)) return null;
  const unit = factUnit(spec);
  const echo = typedEcho(text, spec.quantity, unit);
  const shown = (written: string): string => factText({ spec, text: written });
  return (
    <form
      className="fact-form"
      onSubmit={(event: SubmitEvent) => {
        event.preventDefault();
        void tell(text);
      }}
    >
      <p>
        Now {factText(fact)}. Usual {shown(spec.usual)}; this tree is made for {shown(spec.from)} to {shown(spec.to)}.
      </p>
      <label className="field">
        <span>On this site, in {unit === undefined ? assumedUnit(spec.quantity) : unitSign(unit)}</span>
        <input
          value={text}
          maxLength={60}
          inputMode="decimal"
          autoComplete="off"
          onChange={(event) => {
            forgetTrouble();
            setText(event.target.value);
          }}
        />
      </label>
      <output className="pad-echo" data-bad={(text !== '' && !echo.ok) || undefined}>
        {text === '' ? '' : echo.ok ? `= ${echo.shown}` : `${echo.message} ${echo.fix}`}
      </output>
      <button type="submit" className="button button-main button-wide" disabled={writing}>
        Take it
      </button>
    </form>
  );
}
