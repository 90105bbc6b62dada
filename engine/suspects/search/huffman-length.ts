/** Sum of weight times length of Huffman's code with this many symbols; the mean length where the weights sum to 1. 0 for fewer than two. */
export function huffmanLength(weights: ArrayLike<number>, arity: number): number {
  const queue = Float64Array.from(weights).sort();
  const count = queue.length;
  if (count < 2) return 0;
  // Two queues, both in order: the weights, and what has been merged. The first merge takes the odd ones, so that the last is a full one.
  const merged = new Float64Array(count);
  let head = 0;
  let mergedHead = 0;
  let mergedEnd = 0;
  let length = 0;
  let take = ((count - 2) % (arity - 1)) + 2;
  while (count - head + (mergedEnd - mergedHead) > 1) {
    let sum = 0;
    for (let i = 0; i < take; i += 1) {
      const own = head < count ? (queue[head] ?? 0) : Number.POSITIVE_INFINITY;
      const other = mergedHead < mergedEnd ? (merged[mergedHead] ?? 0) : Number.POSITIVE_INFINITY;
      if (own <= other) {
        sum += own;
        head += 1;
      } else {
        sum += other;
        mergedHead += 1;
      }
    }
    merged[mergedEnd] = sum;
    mergedEnd += 1;
    length += sum;
    take = arity;
  }
  return length;
}
