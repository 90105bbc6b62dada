/** What a problem is called and how to get out of it. */
export type Words = { readonly message: string; readonly fix: string };

const MOST_LISTED = 12;

/** `a, b or c`; a long list is cut. */
export function either(names: readonly string[]): string {
  if (names.length === 0) return 'none';
  if (names.length > MOST_LISTED) return `${names.slice(0, MOST_LISTED).join(', ')} and ${names.length - MOST_LISTED} more`;
  return names.length === 1 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
}

/** ` Did you mean “x”?`, or what there is to choose from. */
export const orOneOf = (suggestion: string | undefined, known: readonly string[], there: string): string =>
  suggestion !== undefined ? `Did you mean “${suggestion}”?` : known.length === 0 ? `There is none yet.` : `${there} ${either(known)}.`;

/** ` when coil-rated is 24 V and run is 40 ft`; nothing where it holds for any facts. */
export const whenFacts = (facts: readonly string[]): string =>
  facts.length === 0 ? '' : ` when ${facts.map((fact) => fact.replace(' ', ' is ')).join(' and ')}`;

const LONGEST = 80;

/** Text from a file, short enough for a message. */
export const cut = (text: string): string => (text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text);
