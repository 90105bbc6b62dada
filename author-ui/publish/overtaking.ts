import type { PublicationEntry } from '../../shared/sync/wire/edition-wire.ts';

/** What stands in the crew after this desk's base: undefined where nobody came in between. `hash`: what the desk makes now. */
export function overtaking(list: readonly PublicationEntry[], base: string | undefined, hash: string): PublicationEntry | undefined {
  const newest = list[0];
  const head = list.find(({ withdrawn }) => !withdrawn);
  if (!newest || base === newest.hash || (head && (base === head.hash || hash === head.hash))) return undefined;
  return head ?? newest;
}

/** What the hub last told of a tree, after what this desk has published since. */
export const withOwn = (told: readonly PublicationEntry[], own: PublicationEntry | undefined): readonly PublicationEntry[] =>
  own && told.every(({ number }) => number < own.number) ? [own, ...told] : told;
