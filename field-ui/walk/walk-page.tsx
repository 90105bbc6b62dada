import type { ReactNode } from 'react';
import { TroubleOfWalk } from './trouble-of-walk.tsx';
import { WalkNotices } from './walk-notices.tsx';

type WalkPageProps = { readonly children: ReactNode; readonly dock?: ReactNode };

/** The two parts of every screen of a walk: what is to be read, which scrolls, and what is to be pressed, which stays in reach. */
export function WalkPage({ children, dock }: WalkPageProps) {
  return (
    <>
      <main className="walk-body">
        <WalkNotices />
        {children}
      </main>
      <section className="walk-dock" aria-label="Entry">
        <TroubleOfWalk />
        {dock}
      </section>
    </>
  );
}
