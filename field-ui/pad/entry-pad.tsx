import { useEffect, useId, useRef } from 'react';
import type { QuantityKindName } from '../../engine/quantity/index.ts';
import { CouldNotButton } from '../step/could-not-button.tsx';
import { useSession } from '../walk/use-session.ts';
import { type PadKeys, padKeys } from './pad-keys.ts';
import { type PadPress, padText } from './pad-text.ts';
import { assumedUnit, typedEcho } from './typed-echo.ts';
import './pad.css';

type EntryPadProps = {
  readonly label: string;
  readonly kind: QuantityKindName;
  /** The unit of a bare number where it is not the kind's own. */
  readonly unit: string | undefined;
  /** Whether a label, a tape or a person says it, and no meter. */
  readonly told?: boolean;
  readonly text: string;
  readonly onText: (text: string) => void;
  readonly onEnter: (typed: string) => Promise<void>;
};

type Press = (change: PadPress) => () => void;

/** Digits, units and OL for thumbs in gloves. A keyboard types into the same line; what cannot be read is said and kept. */
export function EntryPad({ label, kind, unit, told = false, text, onText, onEnter }: EntryPadProps) {
  const { writing, forgetTrouble } = useSession();
  const input = useRef<HTMLInputElement>(null);
  const id = useId();
  const keys = padKeys(kind, unit);
  const echo = typedEcho(text, kind, unit);
  const type = (next: string): void => {
    forgetTrouble();
    onText(next);
  };
  useTypingAnywhere(input);
  const enter = (): void => {
    if (!writing) void onEnter(text);
  };
  const press: Press = (change) => () => type(padText(text, change));
  const specials = keys.open || keys.sign || keys.units.length > 0;
  const tall = specials ? 'pad-key pad-key-side' : 'pad-key pad-key-side pad-key-tall';
  const digitKey = (digit: string) => (
    <button key={digit} type="button" className="pad-key" onClick={press({ key: 'digit', digit })}>
      {digit}
    </button>
  );
  return (
    <form
      className="pad"
      onSubmit={(event) => {
        event.preventDefault();
        enter();
      }}
    >
      <div className="pad-display">
        <label className="unseen" htmlFor={id}>
          {label}, in {assumedUnit(kind, unit)}
        </label>
        <input
          ref={input}
          id={id}
          className="pad-input"
          value={text}
          maxLength={60}
          inputMode="none"
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          placeholder={`${told ? 'it is' : 'meter shows'}, ${assumedUnit(kind, unit)}`}
          aria-describedby={`${id}-echo`}
          onChange={(event) => type(event.target.value)}
        />
        <output id={`${id}-echo`} className="pad-echo" data-bad={(text !== '' && !echo.ok) || undefined}>
          {text === '' ? '' : echo.ok ? <>= {echo.shown}</> : 'not readable'}
        </output>
      </div>
      <div className="pad-keys">
        {['7', '8', '9'].map(digitKey)}
        <button type="button" className={tall} aria-label="Erase last" onClick={press({ key: 'back' })}>
          <svg viewBox="0 0 24 16" aria-hidden="true">
            <path d="M8 2h13v12H8L2 8zM12 5.5l5 5m0-5-5 5" />
          </svg>
        </button>
        <button type="button" className={tall} onClick={press({ key: 'clear' })}>
          Clear
        </button>
        {['4', '5', '6'].map(digitKey)}
        {specials && <PadSpecials keys={keys} press={press} />}
        {['1', '2', '3', '0'].map(digitKey)}
        <button type="button" className="pad-key pad-point" aria-label="decimal point" onClick={press({ key: 'point' })}>
          .
        </button>
        <CouldNotButton words="Cannot" />
        <button type="submit" className="button button-main pad-enter" disabled={writing}>
          Enter
        </button>
      </div>
    </form>
  );
}

function PadSpecials({ keys, press }: { readonly keys: PadKeys; readonly press: Press }) {
  return (
    <span className="pad-specials">
      {keys.open && (
        <button type="button" className="pad-key pad-key-side" onClick={press({ key: 'open' })}>
          OL
        </button>
      )}
      {keys.sign && (
        <button type="button" className="pad-key pad-key-side" aria-label="minus sign" onClick={press({ key: 'sign' })}>
          ±
        </button>
      )}
      {keys.units.map((name) => (
        <button key={name} type="button" className="pad-key pad-key-side" aria-label={`in ${name}`} onClick={press({ key: 'unit', unit: name })}>
          {name}
        </button>
      ))}
    </span>
  );
}

/** A keyboard types into the pad wherever the reader stands, except in another field or on a button that takes the key. */
function useTypingAnywhere(input: { readonly current: HTMLInputElement | null }): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const at = document.activeElement;
      if (event.key.length !== 1 || event.key === ' ' || event.ctrlKey || event.metaKey || event.altKey) return;
      if (document.querySelector('dialog[open]') || (at instanceof HTMLElement && at.matches('input, textarea, select'))) return;
      input.current?.focus();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [input]);
}
