import type { ReactNode } from 'react';
import './page-back.css';

/** The way back from a page that stands outside a call, above its title. */
export function PageBack({ href, children }: { readonly href: string; readonly children: ReactNode }) {
  return (
    <nav className="page-back">
      <a className="button button-quiet" href={href}>
        {children}
      </a>
    </nav>
  );
}
