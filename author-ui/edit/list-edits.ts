/** A list with one item put in another's place. */
export const replacedAt = <T>(list: readonly T[], at: number, item: T): T[] => list.map((one, index) => (index === at ? item : one));

export const removedAt = <T>(list: readonly T[], at: number): T[] => list.filter((_, index) => index !== at);

/** A list with one item moved by so many places; as it was where that would leave the list. */
export function movedAt<T>(list: readonly T[], at: number, by: number): T[] {
  const item = list[at];
  const to = at + by;
  return item === undefined || to < 0 || to >= list.length ? [...list] : list.toSpliced(at, 1).toSpliced(to, 0, item);
}
