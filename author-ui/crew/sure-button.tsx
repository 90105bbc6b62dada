import { type ReactNode, useEffect, useRef, useState } from 'react';

type SureButtonProps = {
  readonly text: string;
  /** What the button does, for who does not see what stands beside it. */
  readonly label?: string;
  /** What doing it means. */
  readonly ask: ReactNode;
  readonly sure: string;
  readonly keep: string;
  readonly busy: boolean;
  /** Resolves with whether it was done. */
  readonly onSure: () => Promise<boolean>;
};

/** A button that asks back before it does what cannot simply be undone. */
export function SureButton({ text, label, ask, sure, keep, busy, onSure }: SureButtonProps) {
  const [asks, setAsks] = useState(false);
  const first = useRef<HTMLButtonElement>(null);
  const safe = useRef<HTMLButtonElement>(null);
  const wasAsking = useRef(false);
  useEffect(() => {
    if (asks) safe.current?.focus();
    else if (wasAsking.current) first.current?.focus();
    wasAsking.current = asks;
  }, [asks]);
  if (!asks) {
    return (
      <button ref={first} type="button" className="button button-quiet" aria-label={label} onClick={() => setAsks(true)}>
        {text}
      </button>
    );
  }
  return (
    <fieldset className="sure" onKeyDown={(event) => event.key === 'Escape' && setAsks(false)}>
      <legend>{ask}</legend>
      <button ref={safe} type="button" className="button button-quiet" onClick={() => setAsks(false)}>
        {keep}
      </button>{' '}
      <button type="button" className="button" disabled={busy} onClick={() => void onSure().then((done) => done && setAsks(false))}>
        {sure}
      </button>
    </fieldset>
  );
}
