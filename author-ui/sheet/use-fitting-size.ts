import { type RefObject, useLayoutEffect, useState } from 'react';

/** One way to set the sheet: points of its type, and whether the text of single steps' cautions and the drawing are on it. */
export type SheetSize = { readonly points: number; readonly cautions: boolean; readonly drawing: boolean };

// All of it in large type; then without the drawing; a long tree at last without the text of single steps' cautions, whose signal words stay.
const SIZES: readonly SheetSize[] = [
  ...[9, 8.5, 8, 7.5].map((points) => ({ points, cautions: true, drawing: true })),
  ...[8.5, 8, 7.5, 7.25, 7, 6.75, 6.5].map((points) => ({ points, cautions: true, drawing: false })),
  ...[7, 6.75, 6.5, 6.25, 6].map((points) => ({ points, cautions: false, drawing: false })),
];

const MM = 96 / 25.4;

/** Two pages: what both letter and A4 have inside 10 mm margins, less what rows that are not broken leave empty at the foot of the first. */
const ROOM = (2 * 257 - 14) * MM;

export type Fit = { readonly size: SheetSize; readonly fits: boolean; readonly settled: boolean };

const SMALLEST: SheetSize = { points: 6, cautions: false, drawing: false };

/** Finds the largest size at which the sheet takes two pages, by measuring it. `key` names what is on it. */
export function useFittingSize(sheet: RefObject<HTMLElement | null>, key: string): Fit {
  const [state, setState] = useState({ key, at: 0, settled: false, fits: true });
  const { at, settled, fits } = state.key === key ? state : { at: 0, settled: false, fits: true };
  useLayoutEffect(() => {
    if (settled) return;
    let stopped = false;
    // Until its fonts are there, type is measured in another face.
    void document.fonts.ready.then(() => {
      const element = sheet.current;
      if (stopped || !element) return;
      const fit = element.getBoundingClientRect().height <= ROOM;
      setState(fit || at === SIZES.length - 1 ? { key, at, settled: true, fits: fit } : { key, at: at + 1, settled: false, fits: true });
    });
    return () => {
      stopped = true;
    };
  }, [sheet, key, at, settled]);
  return { size: SIZES[at] ?? SMALLEST, settled, fits };
}
