import { useId, useState } from 'react';
import { quantityKind, unitSign } from '../../engine/quantity/index.ts';
import type { WalkEvent } from '../../engine/walk/index.ts';
import { BandScale } from '../../shared/ui/band-scale.tsx';
import { rangeWords } from '../../shared/ui/band-words.ts';
import { CautionChip } from '../../shared/ui/caution-plate.tsx';
import { KIND_WORDS, taskLines } from '../document/step-task.ts';
import type { TryMove, TryState } from './try-state.ts';
import { needsWords, PHASE_WORDS, UNTOLD_WORDS, valueWords } from './try-words.ts';

type TryStepProps = { readonly state: TryState; readonly take: (move: TryMove) => void };

/** The step that the try stands on: what it asks, what the bench shows there, and what that means. */
export function TryStep({ state, take }: TryStepProps) {
  const { step, phase, unmet } = state;
  const facts = Object.fromEntries(state.facts.map(({ name, spec }) => [name, spec]));
  const ritual = PHASE_WORDS[phase];
  return (
    <section className="try-step" aria-label={ritual ?? `Step: ${step.title}`}>
      <p className="try-step-kind">
        {ritual ?? KIND_WORDS[step.kind]}
        {step.cautions.map(({ signal }, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a step may have two cautions of one kind, and their order is theirs.
          <CautionChip key={at} signal={signal} count={1} />
        ))}
      </p>
      <h3>{step.title}</h3>
      {(phase === 'work' || phase === 'verdict' || phase === 'recheck') && (
        <ul className="try-task">
          {taskLines(step, facts).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {unmet.length > 0 && <p className="try-needs">{needsWords(state)}</p>}
      {(phase === 'work' || phase === 'recheck') && unmet.length === 0 && <Found state={state} take={take} />}
      {phase === 'verdict' && <VerdictTold state={state} />}
      {state.scale && step.kind !== 'finding' && (phase === 'work' || phase === 'verdict') && <Scale state={state} />}
      {phase === 'verdict' && <Otherwise state={state} take={take} />}
    </section>
  );
}

/** What the bench shows, and every other answer that the author may give instead. */
function Found({ state, take }: TryStepProps) {
  const { step, shows } = state;
  if (step.kind === 'act') return null;
  return (
    <>
      {shows.kind === 'reading' && (
        <p className="try-meter">
          <strong>{shows.shown}</strong>
          <span>on the bench’s meter{shows.others.length > 0 && '; within its accuracy it could land in another band too'}</span>
        </p>
      )}
      {shows.kind === 'answer' && step.kind === 'look' && (
        <p className="try-meter">
          <strong className="try-sign">{shows.on}</strong>
          <span>is what the bench shows</span>
        </p>
      )}
      {shows.kind === 'untold' && <p className="try-untold">{UNTOLD_WORDS[shows.why]}</p>}
      <Otherwise state={state} take={take} />
    </>
  );
}

function Otherwise({ state, take }: TryStepProps) {
  const { step, shows, phase, verdict, cannot } = state;
  const put = (event: WalkEvent): void => take({ do: 'event', event });
  const answer = (text: string): WalkEvent => {
    if (phase === 'recheck') return step.kind === 'reading' ? { type: 'rechecked', typed: text } : { type: 'rechecked', saw: text };
    if (step.kind === 'reading') return { type: 'read', typed: text };
    return step.kind === 'ask' ? { type: 'told', fact: step.fact, typed: text } : { type: 'looked', saw: text };
  };
  const isTyped = step.kind === 'reading' || (step.kind === 'ask' && (state.scale !== undefined || state.answers.some(({ on }) => on === 'known')));
  const seen = verdict?.on ?? (shows.kind === 'answer' ? shows.on : undefined);
  return (
    <div className="try-otherwise">
      {isTyped ? (
        <TypeOther state={state} put={(text) => put(answer(text))} />
      ) : (
        step.kind !== 'act' && (
          <ul className="try-answers" aria-label={phase === 'verdict' ? 'Change it to' : 'Or choose'}>
            {state.answers.map(({ on, leadsTo }) => (
              <li key={on}>
                <button type="button" aria-pressed={on === seen} onClick={() => put(answer(on))}>
                  <span>{on}</span>
                  <span className="try-leads">{leadsTo}</span>
                </button>
              </li>
            ))}
          </ul>
        )
      )}
      {cannot !== undefined && phase !== 'recheck' && (
        <button type="button" className="button-plain try-cannot" onClick={() => put({ type: 'could-not' })}>
          It cannot be done: to “{cannot}”
        </button>
      )}
    </div>
  );
}

function TypeOther({ state, put }: { readonly state: TryState; readonly put: (text: string) => void }) {
  const [text, setText] = useState('');
  const id = useId();
  const { step, scale } = state;
  const unit = step.kind === 'reading' ? (step.unit ?? quantityKind(step.takes).unit) : (scale?.unit ?? '');
  return (
    <form
      className="try-type"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() !== '') put(text.trim());
      }}
    >
      <label htmlFor={id}>{state.phase === 'verdict' ? 'Read another value' : step.kind === 'ask' ? 'Or tell' : 'Or type another value'}</label>
      <input
        id={id}
        value={text}
        autoComplete="off"
        spellCheck={false}
        placeholder={unit === '' ? 'a number' : `a number, ${unitSign(unit)}`}
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit" className="button button-quiet">
        Enter
      </button>
    </form>
  );
}

function VerdictTold({ state: { verdict, scale, step } }: { readonly state: TryState }) {
  if (!verdict) return null;
  const { judged } = verdict;
  const takes = step.kind === 'reading' ? step.takes : undefined;
  const band = judged?.bands.find(({ on }) => on === verdict.on);
  const others = [...new Set((judged?.reaches ?? []).flatMap((on) => scale?.bands.find((one) => one.on === on)?.leadsTo ?? []))];
  return (
    <div className="try-verdict" role="status">
      <p className="try-meter">
        <strong className={judged ? undefined : 'try-sign'}>{judged && takes ? valueWords(judged, takes) : verdict.on}</strong>
        <span>leads to “{verdict.leadsTo}”</span>
      </p>
      {judged && takes && (
        <p className="try-band">
          {judged.si === 'open'
            ? 'Over-range.'
            : band && (band.low !== null || band.high !== null)
              ? `In the band ${rangeWords(band.low, band.high, takes, scale?.unit)}, written “${verdict.on}”.`
              : `In none of the bands with numbers: “${verdict.on}”.`}
        </p>
      )}
      {verdict.tooClose && (
        <p className="try-close">
          <strong>Too close to call:</strong> within the meter’s accuracy it could also lead to {others.map((title) => `“${title}”`).join(' or ')}.
        </p>
      )}
    </div>
  );
}

function Scale({ state: { scale, step, verdict } }: { readonly state: TryState }) {
  if (!scale || step.kind !== 'reading') return null;
  const judged = verdict?.judged;
  const mark = judged && { si: judged.si, text: valueWords(judged, step.takes), halfWidth: judged.halfWidth };
  return <BandScale bands={scale.bands} kind={step.takes} unit={step.unit} {...(mark && { mark })} />;
}
