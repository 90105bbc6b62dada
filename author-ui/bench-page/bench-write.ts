import { readBench } from '../../engine/bench/index.ts';
import type { Rename } from './entry-mentions.ts';

/** How the forms of a bench write what they change; each is one step of work. */
export type BenchWrite = {
  readonly text: (text: string, label: string) => void;
  /** Renames with everything that follows, then changes the bench's own text further; answers why not where it cannot be. */
  readonly renamed: (rename: Rename, label: string, further?: (text: string) => string) => readonly string[];
};

/** Writes a text that is still of the form of a bench, whatever else is wrong with it; answers why it is not. */
export function saveText(text: string, label: string, write: BenchWrite, about?: string): readonly string[] {
  const read = readBench(text, { file: '' });
  if (!read.bench) {
    const own = read.problems.filter(({ step }) => step === about);
    return (own.length > 0 ? own : read.problems).map(({ message, fix }) => `${message} ${fix}`);
  }
  write.text(text, label);
  return [];
}
