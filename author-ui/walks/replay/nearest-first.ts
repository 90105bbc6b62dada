/** The line nearest to the one looked at that nothing was told of yet; undefined when all is told. */
export function nearestFirst(count: number, looking: number, told: ReadonlySet<number>): number | undefined {
  const from = Math.max(0, Math.min(count - 1, looking));
  for (let off = 0; off < count; off += 1) for (const at of [from + off, from - off]) if (at >= 0 && at < count && !told.has(at)) return at;
  return undefined;
}
