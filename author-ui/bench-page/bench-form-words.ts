/** What the forms of a bench say where they cannot be, or cannot write. */
export const benchFormWords = {
  unready: 'The text cannot be read as a bench. Put it right as text first; then its forms are here.',
  /** Forms that were there before the text was broken. */
  waiting:
    'The text cannot be read as a bench now, so nothing can be changed by a form. Put it right as text, or undo; what was typed in a form stays.',
  taken: (name: string): string => `There is a “${name}” already. Give this one another name.`,
} as const;
