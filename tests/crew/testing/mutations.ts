import { seededRandom } from './seeded-random.ts';

const TEXTS = [
  '',
  ' ',
  '\u0000',
  '\u202e',
  '\ud800',
  '<script>alert(1)</script>',
  "' or 1=1 --",
  '"; drop table person; --',
  '../../etc/passwd',
  '$(7*7)',
  'constructor',
  '__proto__',
  '9'.repeat(400),
  '🔥'.repeat(50),
];
const VALUES: readonly unknown[] = [null, true, false, 0, -1, 1.5, 1e308, 2 ** 53, '', [], {}, [[]], ...TEXTS];

/** Spoils values, texts and paths in ways that are the same on every run. */
export class Mutations {
  readonly #random: () => number;

  constructor(seed: number) {
    this.#random = seededRandom(seed);
  }

  below(n: number): number {
    return Math.floor(this.#random() * n);
  }

  one<T>(from: readonly T[]): T {
    const chosen = from[this.below(from.length)];
    if (chosen === undefined) throw new Error('nothing to choose from');
    return chosen;
  }

  /** The value with one to three of its parts replaced, dropped, doubled or renamed. */
  spoil(value: unknown): unknown {
    const copy = structuredClone({ value });
    for (let times = 1 + this.below(3); times > 0; times -= 1) this.#spoilOnce(copy);
    return copy.value;
  }

  #spoilOnce(root: { value: unknown }): void {
    let at: Record<string, unknown> = root;
    let key = 'value';
    for (;;) {
      const inner = at[key];
      const keys = typeof inner === 'object' && inner !== null ? Object.keys(inner) : [];
      if (keys.length === 0 || this.below(4) === 0) break;
      at = inner as Record<string, unknown>;
      key = this.one(keys);
    }
    const way = this.below(5);
    if (way === 0) delete at[key];
    else if (way === 1 && !Array.isArray(at)) at[this.one(TEXTS)] = at[key];
    else if (way === 2 && typeof at[key] === 'string') at[key] = this.spoilText(String(at[key]));
    else if (way === 3 && Array.isArray(at[key])) at[key] = [...(at[key] as unknown[]), ...(at[key] as unknown[])];
    else at[key] = VALUES[this.below(VALUES.length)];
  }

  /** A text with a piece cut out, put in, doubled or turned over. */
  spoilText(text: string): string {
    const from = this.below(text.length + 1);
    const to = from + this.below(8);
    const [head, piece, tail] = [text.slice(0, from), text.slice(from, to), text.slice(to)];
    return this.one([head + tail, head + this.one(TEXTS) + tail, head + piece + piece + tail, head + [...piece].reverse().join('') + tail, head]);
  }

  spoilPath(path: string): string {
    const spoilt =
      this.below(2) === 0
        ? this.spoilText(path)
        : path.replace(/[^/?=&]+(?=[^/]*$)/, encodeURIComponent(this.one(TEXTS.filter((text) => !/\p{Cs}/u.test(text)))));
    // Nothing that is no URL at all: a socket would not carry it either.
    const safe = spoilt.replace(/[^\u0021-\u007e]/g, (letter) => (/\p{Cs}/u.test(letter) ? '%ff' : encodeURIComponent(letter)));
    return safe.startsWith('/') ? safe : `/${safe}`;
  }
}
