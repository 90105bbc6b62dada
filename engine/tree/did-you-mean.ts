/** Edit distance with swaps of neighbours counted once (optimal string alignment); stops above `most`. */
function distance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least > most) return most + 1;
    before = last;
    last = row;
  }
  return last[b.length] ?? most + 1;
}

const LONGEST = 80;

/** The known name that was most likely meant; undefined where none is near. */
export function didYouMean(written: string, known: Iterable<string>): string | undefined {
  if (written.length > LONGEST) return undefined;
  const plain = written.toLowerCase();
  // Of one or two letters nearly anything is near; only a wrong capital is taken for a slip.
  let most = plain.length < 3 ? 0 : Math.max(1, Math.floor(plain.length / 3));
  let nearest: string | undefined;
  for (const name of known) {
    const d = distance(plain, name.toLowerCase(), most);
    if (d > most || (nearest !== undefined && d === most)) continue;
    nearest = name;
    most = d;
  }
  return nearest;
}
