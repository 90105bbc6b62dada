import { type ReactNode, useEffect, useId, useRef } from 'react';

type SheetProps = { readonly title: string; readonly onClose: () => void; readonly children: ReactNode };

/** A panel over the screen, from the foot on a phone. The dialog element keeps the keyboard inside it and closes on Escape. */
export function Sheet({ title, onClose, children }: SheetProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const opener = document.activeElement;
    const element = dialog.current;
    if (element && !element.open) element.showModal();
    return () => {
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus({ preventScroll: true });
    };
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: a click on the backdrop is a second way out; the keyboard has Escape and the button.
    <dialog
      ref={dialog}
      className="sheet"
      aria-labelledby={id}
      onClose={onClose}
      onClick={(event) => {
        if (event.target === dialog.current) onClose();
      }}
    >
      <div className="sheet-frame">
        <header className="sheet-head">
          <h2 id={id}>{title}</h2>
          <button type="button" className="button button-quiet" onClick={onClose}>
            Close
          </button>
        </header>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by the keyboard. */}
        <div className="sheet-body" tabIndex={0}>
          {children}
        </div>
      </div>
    </dialog>
  );
}
