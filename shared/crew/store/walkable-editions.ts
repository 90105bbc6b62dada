import { readEdition, type WalkableEdition, walkableEdition } from '../../../engine/walk/index.ts';

const KEPT = 40;

/** Editions worked out for replay, the latest used of them kept. `text` gives an edition's text by its hash. */
export class WalkableEditions {
  readonly #text: (hash: string) => Promise<string | undefined>;
  readonly #kept = new Map<string, WalkableEdition | undefined>();

  constructor(text: (hash: string) => Promise<string | undefined>) {
    this.#text = text;
  }

  /** Undefined where the edition is not known, or cannot be walked. */
  async get(hash: string): Promise<WalkableEdition | undefined> {
    const kept = this.#kept.get(hash);
    if (kept) {
      this.#kept.delete(hash);
      this.#kept.set(hash, kept);
      return kept;
    }
    const text = await this.#text(hash);
    if (text === undefined) return undefined;
    const walkable = worked(text);
    this.#kept.set(hash, walkable);
    const oldest = this.#kept.keys().next().value;
    if (this.#kept.size > KEPT && oldest !== undefined) this.#kept.delete(oldest);
    return walkable;
  }
}

function worked(text: string): WalkableEdition | undefined {
  try {
    const read = readEdition(JSON.parse(text));
    return read.ok ? walkableEdition(read.value) : undefined;
  } catch {
    // What it says cannot be compiled; the walk is then kept as lines alone.
    return undefined;
  }
}
