import { type KeyboardEvent, type MouseEvent, type PointerEvent, type ReactNode, useEffect, useRef, useState } from 'react';

/** How long a press must last to be no accident, ms. */
export const HOLD_MS = 800;

/** A press that came from no pointer or key (a screen reader, a switch) asks once more, within this time, ms. */
const ASK_AGAIN_MS = 6000;

type HoldButtonProps = { readonly children: ReactNode; readonly onHeld: () => void; readonly disabled?: boolean };

type Hold = 'idle' | 'holding' | 'let-go' | 'ask-again';

/**
 * A button that takes a press held until its bar is full, by finger, mouse, Enter or Space. Those who cannot hold press twice.
 */
export function HoldButton({ children, onHeld, disabled = false }: HoldButtonProps) {
  const [hold, setHold] = useState<Hold>('idle');
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);

  const begin = (): void => {
    if (disabled) return;
    clearTimeout(timer.current);
    setHold('holding');
    timer.current = setTimeout(() => {
      setHold('idle');
      onHeld();
    }, HOLD_MS);
  };
  const end = (): void => {
    if (hold !== 'holding') return;
    clearTimeout(timer.current);
    setHold('let-go');
  };
  const onClick = (event: MouseEvent): void => {
    // A click that follows a pointer or a key has been dealt with by them.
    if (disabled || event.detail !== 0) return;
    if (hold === 'ask-again') {
      clearTimeout(timer.current);
      setHold('idle');
      onHeld();
      return;
    }
    setHold('ask-again');
    timer.current = setTimeout(() => setHold('idle'), ASK_AGAIN_MS);
  };
  const isPress = ({ key }: KeyboardEvent): boolean => key === 'Enter' || key === ' ';

  return (
    <button
      type="button"
      className="hold-button"
      data-hold={hold}
      disabled={disabled}
      onPointerDown={(event: PointerEvent<HTMLButtonElement>) => {
        if (event.button === 0) begin();
      }}
      onPointerUp={end}
      onPointerLeave={end}
      onPointerCancel={end}
      onContextMenu={(event) => event.preventDefault()}
      onKeyDown={(event) => {
        if (!isPress(event)) return;
        event.preventDefault();
        if (!event.repeat) begin();
      }}
      onKeyUp={(event) => {
        if (!isPress(event)) return;
        event.preventDefault();
        end();
      }}
      onBlur={end}
      onClick={onClick}
    >
      <span className="hold-button-bar" aria-hidden="true" />
      <span className="hold-button-words">{children}</span>
      <span className="hold-button-hint" aria-live="polite">
        {hold === 'ask-again' ? 'Press again to confirm' : hold === 'let-go' ? 'Hold until the bar is full' : 'Press and hold'}
      </span>
    </button>
  );
}
