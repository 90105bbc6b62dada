// Levenshtein distance, stopped where it cannot stay within two.
function distance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 2) return 3;
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      next.push(Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + Number(a[i - 1] !== b[j - 1])));
    }
    row = next;
  }
  return row[b.length] ?? 3;
}

/** The known name that was most likely meant; undefined where none is near. */
export function nearest(name: string, known: readonly string[]): string | undefined {
  const plain = (text: string) => text.toLowerCase().replaceAll(/[-_ ]/g, '');
  const same = known.find((candidate) => candidate !== name && plain(candidate) === plain(name));
  if (same !== undefined) return same;
  const most = name.length <= 3 ? 1 : 2;
  let best: { name: string; far: number } | undefined;
  for (const candidate of known) {
    if (candidate === name) continue;
    const far = distance(name, candidate);
    if (far <= most && (!best || far < best.far)) best = { name: candidate, far };
  }
  // On names of one letter everything is one letter away: no hint is better than any.
  return best && (name.length > 1 || best.name.length > 1) ? best.name : undefined;
}
