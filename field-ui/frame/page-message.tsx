import type { ReactNode } from 'react';
import { useArrival } from './use-arrival.ts';

type PageMessageProps = { readonly title: string; readonly children: ReactNode; readonly actions?: ReactNode };

/** A whole screen that says one thing: what happened, what is safe, what to do. */
export function PageMessage({ title, children, actions }: PageMessageProps) {
  const heading = useArrival(title);
  return (
    <main className="page page-message">
      <h1 ref={heading} tabIndex={-1}>
        {title}
      </h1>
      {children}
      <div className="page-message-actions">
        {actions}
        <a className="button button-line" href="#/">
          All calls
        </a>
      </div>
    </main>
  );
}
