import type { ReactNode } from 'react';

type TroubleProps = {
  readonly happened: string;
  readonly safe?: string;
  readonly todo: string;
  readonly onDismiss?: (() => void) | undefined;
  readonly children?: ReactNode;
};

/** Something that did not happen: what, what is safe, what to do. Spoken at once. */
export function TroubleNotice({ happened, safe, todo, onDismiss, children }: TroubleProps) {
  return (
    <div className="trouble" role="alert">
      <p className="trouble-happened">{happened}</p>
      {safe !== undefined && <p>{safe}</p>}
      <p>{todo}</p>
      {(children || onDismiss) && (
        <div className="trouble-actions">
          {children}
          {onDismiss && (
            <button type="button" className="button button-quiet" onClick={onDismiss}>
              Dismiss
            </button>
          )}
        </div>
      )}
    </div>
  );
}
