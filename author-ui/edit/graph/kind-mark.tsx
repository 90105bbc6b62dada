import type { StepKind } from '../../../engine/tree/index.ts';

/** Drawn on a field of 16 by 16: a meter's arc, an eye, a hand tool, a question, a tag, an exit. */
const MARKS: Readonly<Record<StepKind, string>> = {
  reading: 'M2 12a6 6 0 0 1 12 0M8 12l3-5',
  look: 'M1.5 8s2.5-4.5 6.5-4.5S14.5 8 14.5 8 12 12.5 8 12.5 1.5 8 1.5 8ZM8 6.300a1.7 1.7 0 1 0 0 3.4 1.7 1.7 0 0 0 0-3.400Z',
  act: 'M2.5 13.5 8 8M10.5 2.5a3.5 3.5 0 1 0 3 5l-2.5.5-1.5-1.5.5-2.5Z',
  ask: 'M5.5 6a2.5 2.5 0 1 1 3.6 2.200c-.8.4-1.1.9-1.1 1.800M8 12.300v.7',
  finding: 'M2.5 2.5h6l5 5-6 6-5-5ZM5.5 5.5h.01',
  handoff: 'M6 2.5H2.5v11H6M6.5 8h7M10.5 5l3 3-3 3',
};

/** The sign of a kind of step. Its name stands beside it everywhere. */
export function KindMark({ kind }: { readonly kind: StepKind }) {
  return (
    <svg className="kind-mark" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <path d={MARKS[kind]} fill="none" stroke="currentColor" strokeWidth="1.5" strokeLinecap="round" strokeLinejoin="round" />
    </svg>
  );
}
