import { useState } from 'react';

/** Which panes of the editing page are open. */
export type Panes = { readonly graph: boolean; readonly form: boolean; readonly text: boolean };
export const PANE_NAMES = ['graph', 'form', 'text'] as const;
export type PaneName = (typeof PANE_NAMES)[number];

const KEY = 'ohmward-desk-panes';
const ALL: Panes = { graph: true, form: true, text: true };

function kept(): Panes {
  // Where the window is too narrow for three, a senior tech needs the form first.
  const usual = window.innerWidth < 1000 ? { graph: false, form: true, text: false } : ALL;
  try {
    const names = localStorage.getItem(KEY)?.split(' ') ?? [];
    const panes = { graph: names.includes('graph'), form: names.includes('form'), text: names.includes('text') };
    return PANE_NAMES.some((name) => panes[name]) ? panes : usual;
  } catch {
    return usual;
  }
}

/** The open panes and how to open or close one; one stays open always. */
export function usePanes(): readonly [Panes, (name: PaneName) => void] {
  const [panes, setPanes] = useState(kept);
  const toggle = (name: PaneName): void => {
    const next = { ...panes, [name]: !panes[name] };
    if (!PANE_NAMES.some((one) => next[one])) return;
    setPanes(next);
    try {
      localStorage.setItem(KEY, PANE_NAMES.filter((one) => next[one]).join(' '));
    } catch {
      // Only a convenience: the panes are as usual next time.
    }
  };
  return [panes, toggle];
}
