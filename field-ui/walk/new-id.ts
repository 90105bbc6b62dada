// No 0, 1, l or o: an id is read out over the phone.
const LETTERS = '23456789abcdefghijkmnpqrstuvwxyz';

/** A new id of 80 random bits, such as `walk-7xk2…`. Works without a secure context, where `crypto.randomUUID` is not there. */
export function newId(prefix: string): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return `${prefix}-${Array.from(bytes, (byte) => LETTERS[byte % LETTERS.length]).join('')}`;
}
