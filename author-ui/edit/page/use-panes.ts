import { useState } from 'react';

/** Which panes of the editing page are open. `tries`: the tree is tried beside them. */
export type Panes = { readonly graph: boolean; readonly form: boolean; readonly text: boolean; readonly tries: boolean };
export const PANE_NAMES = ['graph', 'form', 'text'] as const;
export type PaneName = (typeof PANE_NAMES)[number];

const KEY = 'ohmward-desk-panes';
const ALL: Panes = { graph: true, form: true, text: true, tries: false };

/** px of window from which a fourth pane has room; below it the text makes way for the try. */
const ROOM_FOR_FOUR = 1700;

function kept(): Panes {
  // Where the window is too narrow for three, a senior tech needs the form first.
  const usual = window.innerWidth < 1000 ? { graph: false, form: true, text: false, tries: false } : ALL;
  try {
    const names = localStorage.getItem(KEY)?.split(' ') ?? [];
    const panes = { graph: names.includes('graph'), form: names.includes('form'), text: names.includes('text'), tries: false };
    return PANE_NAMES.some((name) => panes[name]) ? panes : usual;
  } catch {
    return usual;
  }
}

export type UsePanes = {
  readonly panes: Panes;
  readonly toggle: (name: PaneName) => void;
  /** Opens or closes the try. */
  readonly toggleTry: () => void;
};

/** The open panes and how to open or close one; one of the three stays open always. */
export function usePanes(tries: boolean): UsePanes {
  const [panes, setPanes] = useState(() => (tries ? withTry(kept()) : kept()));
  const toggle = (name: PaneName): void => {
    const next = { ...panes, [name]: !panes[name] };
    if (!PANE_NAMES.some((one) => next[one])) return;
    setPanes(next);
    // While the tree is tried, the panes make room for it: that is not how the author wants them for good.
    if (panes.tries) return;
    try {
      localStorage.setItem(KEY, PANE_NAMES.filter((one) => next[one]).join(' '));
    } catch {
      // Only a convenience: the panes are as usual next time.
    }
  };
  return { panes, toggle, toggleTry: () => setPanes(panes.tries ? kept() : withTry(panes)) };
}

function withTry(panes: Panes): Panes {
  const hasRoom = window.innerWidth >= ROOM_FOR_FOUR || !(panes.graph && panes.form);
  return { ...panes, text: hasRoom && panes.text, tries: true };
}
