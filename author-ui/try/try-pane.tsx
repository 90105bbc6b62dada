import { useLayoutEffect, useRef } from 'react';
import { editAddress } from '../desk-route.ts';
import { TryLadder } from './try-ladder.tsx';
import { TrySetupForm } from './try-setup-form.tsx';
import type { RefusedMove, TryState } from './try-state.ts';
import { TryStep } from './try-step.tsx';
import { TryTrail } from './try-trail.tsx';
import { endWords, inPlaceWords, nextWords, OUTCOMES, putBackAct } from './try-words.ts';
import { type TryNow, useTry } from './use-try.ts';

type TryPaneProps = {
  readonly name: string;
  /** The step to begin at; undefined for the beginning. */
  readonly from: string | undefined;
  /** The step that is selected on the page. */
  readonly shown: string;
  /** Selects a step of this tree on the page. */
  readonly select: (step: string) => void;
};

/** A tree walked as it is written now, against a bench with a chosen fault. */
export function TryPane({ name, from, shown, select }: TryPaneProps) {
  const now = useTry(name, from === undefined ? undefined : `${name}/${from}`);
  const { state, errors, failed, offer, setup } = now;
  const pane = useRef<HTMLElement>(null);
  useFollow(now, name, select, pane);
  return (
    <section className="try" aria-labelledby="try-title" ref={pane}>
      <h2 id="try-title" className="unseen">
        Try it
      </h2>
      {failed !== undefined && (
        <p className="try-note" role="alert">
          {failed} The tree itself is as it was. Reload the page to try it.
        </p>
      )}
      {errors && <TryErrors errors={errors} select={select} />}
      {offer && <TrySetupForm now={now} offer={offer} name={name} shown={shown} />}
      {!state && !errors && failed === undefined && <p className="pane-note">Reading the tree…</p>}
      {state && offer && (
        <>
          {state.end && <TryEnded state={state} now={now} />}
          <TryStep key={`${state.at.tree}/${state.at.step} ${state.path.length}`} state={state} take={now.take} />
          <PutBackList state={state} now={now} />
          <TryLadder state={state} offer={offer} setup={setup} />
          <TryTrail state={state} name={name} shown={shown} select={select} />
          <TryDock now={now} state={state} name={name} />
        </>
      )}
    </section>
  );
}

/** After a move of the author's the page shows the step it led to, and the keyboard stays on what comes next. */
function useFollow(now: TryNow, name: string, select: (step: string) => void, pane: React.RefObject<HTMLElement | null>): void {
  const { state, moved } = now;
  const followed = useRef(0);
  // Before anything else can be pressed: a button that went from under the keyboard leaves it nowhere.
  useLayoutEffect(() => {
    if (!state || followed.current === moved) return;
    followed.current = moved;
    if (state.at.tree === name) select(state.at.step);
    pane.current?.querySelector('.try-step')?.scrollIntoView({ block: 'nearest' });
    const active = document.activeElement;
    // What was typed and not taken is there to be put right.
    if (state.refused && active instanceof HTMLInputElement) return;
    if (active !== document.body && !(active instanceof HTMLElement && pane.current?.contains(active))) return;
    const next =
      pane.current?.querySelector<HTMLElement>('[data-next]') ?? pane.current?.querySelector<HTMLElement>('.try-answers button, .try-type input');
    next?.focus({ preventScroll: true });
  }, [state, moved, name, select, pane]);
}

function TryErrors({ errors, select }: { readonly errors: NonNullable<TryNow['errors']>; readonly select: (step: string) => void }) {
  const found = errors.problems.filter(({ severity }) => severity === 'error');
  return (
    <div className="try-errors" role="status">
      <h3>{found.length === 1 ? 'One error first' : found.length === 0 ? 'Not walked yet' : `${found.length} errors first`}</h3>
      <p>{errors.why ?? 'What a tree with errors would do cannot be told. Put these right, and the try goes on from where it was.'}</p>
      <ol>
        {found.slice(0, 5).map((problem) => (
          <li key={`${problem.file} ${problem.line} ${problem.column} ${problem.code}`}>
            {problem.step === undefined ? (
              <span>
                {problem.file.replace(/^trees\//, '')}, line {problem.line}:{' '}
              </span>
            ) : (
              <button type="button" className="button-plain" onClick={() => select(problem.step ?? '')}>
                line {problem.line}
              </button>
            )}{' '}
            {problem.message} {problem.fix}
          </li>
        ))}
      </ol>
      {found.length > 5 && <p>and {found.length - 5} more</p>}
    </div>
  );
}

function TryEnded({ state, now }: { readonly state: TryState; readonly now: TryNow }) {
  if (!state.end) return null;
  // In the recheck the open step is another than the finding.
  const last = state.phase === 'recheck' ? state.path.at(-1)?.title : undefined;
  const { word, told } = endWords(state.end, now.setup, last ?? state.path.at(-1)?.title ?? state.step.title);
  return (
    <div className="try-end" data-how={state.end.how} role="status">
      <p>
        <strong>{word}.</strong> {told}
      </p>
      <p className="try-end-cost">
        {state.path.length === 1 ? '1 step' : `${state.path.length} steps`},{' '}
        {state.minutes === 0 ? 'no time' : `about ${Math.round(state.minutes * 10) / 10} min`}
        {state.outcome && ` · ${OUTCOMES[state.outcome]}`}
      </p>
    </div>
  );
}

function PutBackList({ state, now }: { readonly state: TryState; readonly now: TryNow }) {
  return (
    <section className="try-put-back" aria-labelledby="try-put-back">
      <h3 id="try-put-back">Put back: {state.putBack.length === 0 ? 'nothing' : state.putBack.length}</h3>
      {state.putBack.length > 0 && (
        <ul>
          {state.putBack.map((item) => (
            <li key={item.key}>
              {inPlaceWords(item)}
              <button
                type="button"
                className="button-plain"
                aria-label={`${putBackAct(item)}: ${inPlaceWords(item)}`}
                onClick={() => now.take({ do: 'event', event: { type: 'put-back', item: item.key } })}
              >
                {putBackAct(item)}
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function TryDock({ now, state, name }: { readonly now: TryNow; readonly state: TryState; readonly name: string }) {
  const next = nextWords(state);
  const walking = state.phase === 'work' || state.phase === 'verdict';
  return (
    <div className="try-dock">
      {state.refused && <Refused refused={state.refused} dropped={state.dropped} />}
      {next !== undefined && (
        <button type="button" className="button" data-next onClick={() => now.take({ do: 'as-shown' })}>
          {next}
        </button>
      )}
      {state.phase === 'closed' && (
        <button type="button" className="button" data-next onClick={() => now.begin({ from: undefined })}>
          Try it once more
        </button>
      )}
      <span className="try-dock-more">
        <button type="button" className="button button-quiet" disabled={state.taken.length === 0} onClick={now.back}>
          Take back
        </button>
        {walking && (
          <button type="button" className="button button-quiet" onClick={() => now.take({ do: 'follow' })}>
            Follow the bench to the end
          </button>
        )}
        {state.at.tree !== name && <a href={editAddress(state.at.tree, state.at.step)}>Edit “{state.at.treeTitle}”</a>}
      </span>
    </div>
  );
}

function Refused({ refused, dropped }: { readonly refused: RefusedMove; readonly dropped: number }) {
  return (
    <div className="try-refused" role="alert">
      <p>
        <strong>Not taken.</strong> {refused.message} {refused.fix}
      </p>
      {dropped > 0 && (
        <p>The tree has changed: {dropped === 1 ? 'one later move of this try waits' : `${dropped} later moves of this try wait`} behind it.</p>
      )}
    </div>
  );
}
