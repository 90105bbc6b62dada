import type { ReactNode } from 'react';

/** A page that has nothing else to show: what happened, what is safe, and what to do. */
export function Notice({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className="notice">
      <h1>{title}</h1>
      {children}
    </section>
  );
}
