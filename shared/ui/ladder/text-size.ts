/** Sizes of text in the drawing, px. Nothing is smaller than `small`. */
export const TEXT = { name: 12, small: 11 } as const;

/** From one baseline to the next, and what a line takes above and below its baseline, px. */
export const LINE = { height: 13, above: 10, below: 3 } as const;

// Advance widths of ASCII 32 to 126 in B612, hundredths of an em, regular and bold alike; measured in a browser.
const ADVANCES = [
  35, 35, 40, 85, 55, 90, 70, 20, 45, 45, 55, 60, 25, 45, 30, 55, 65, 65, 65, 65, 65, 65, 65, 65, 65, 65, 30, 25, 65, 50, 65, 55, 100, 65, 65, 60, 65,
  60, 55, 65, 70, 30, 45, 60, 55, 90, 75, 80, 60, 80, 65, 55, 60, 70, 65, 95, 65, 60, 60, 45, 55, 50, 75, 55, 55, 52, 60, 50, 60, 55, 40, 60, 60, 30,
  30, 55, 35, 90, 60, 60, 60, 60, 40, 45, 40, 60, 55, 75, 55, 55, 50, 65, 20, 60, 75,
];
const OTHER = 100;

/** A space at which no line is broken: between a number and its unit. */
export const UNBROKEN = '\u00a0';

/** Width in px at a size, without a browser; whole px, rounded up. */
export function textWidth(text: string, size: number): number {
  let hundredths = 0;
  for (const character of text) hundredths += ADVANCES[((character === UNBROKEN ? ' ' : character).codePointAt(0) ?? 0) - 32] ?? OTHER;
  return Math.ceil((hundredths * size) / 100);
}

/** Breaks text into lines no wider than `most`, between words; a word alone may be wider. At most `lines`, the last cut with an ellipsis. */
export function wrapped(text: string, size: number, most: number, lines = 3): readonly string[] {
  const rows: string[] = [];
  for (const word of text.split(/[ \n\t]+/).filter(Boolean)) {
    const last = rows.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(longer, size) <= most) rows[rows.length - 1] = longer;
    else rows.push(word);
  }
  if (rows.length <= lines) return rows;
  return [...rows.slice(0, lines - 1), `${rows[lines - 1] ?? ''}…`];
}
