import { readBench } from '../../engine/bench/index.ts';
import { benchPath, type DeskFile } from '../store/desk-file.ts';
import { type EditableBench, editableBench } from './bench-edits.ts';
import { benchFormWords } from './bench-form-words.ts';
import type { Rename } from './entry-mentions.ts';
import { planRename, renameEntryWords } from './rename-entry.ts';

/** The text of a bench after a change; or why it is not made. */
export type BenchChange = (bench: EditableBench) => string | readonly string[];

/** How the forms of a bench write what they change; each is one step of work, and answers why not where it cannot be. */
export type BenchWrite = {
  /** Changes the text; `about` is the entry whose problems are told first. */
  readonly edit: (label: string, change: BenchChange, about?: string) => readonly string[];
  /** Renames with everything that follows, then changes the bench's own text further. */
  readonly renamed: (rename: Rename, label: string, further?: BenchChange) => readonly string[];
};

/** What a bench is written to: the files as they stand now, and one step of work on them. */
export type BenchFiles = {
  files(): ReadonlyMap<string, DeskFile>;
  apply(edits: ReadonlyMap<string, string>, label: string): void;
};

/**
 * Writes into the text as it stands at the moment of the press. What a form shows may be of a text before: it is read and solved while typing
 * goes on, and what was written in between must not be taken back.
 */
export function benchWrite(store: BenchFiles, name: string): BenchWrite {
  const path = benchPath(name);
  const write = (edits: ReadonlyMap<string, string>, from: string, label: string, change: BenchChange, about?: string): readonly string[] => {
    const bench = editableBench(from);
    if (!bench) return [benchFormWords.waiting];
    const next = change(bench);
    if (typeof next !== 'string') return next;
    const wrong = wrongForm(next, about);
    if (wrong.length === 0) store.apply(new Map([...edits, [path, next]]), label);
    return wrong;
  };
  return {
    edit: (label, change, about) => write(new Map(), store.files().get(path)?.text ?? '', label, change, about),
    renamed: (rename, label, further = ({ text }) => text) => {
      const plan = planRename(store.files(), name, rename);
      if (!plan.ok) return [renameEntryWords(plan.problem)];
      return write(plan.value.edits, plan.value.edits.get(path) ?? '', label, further);
    },
  };
}

/** Why a text is not of the form of a bench; nothing where it is, whatever else is wrong with it. */
function wrongForm(text: string, about: string | undefined): readonly string[] {
  const read = readBench(text, { file: '' });
  if (read.bench) return [];
  const own = read.problems.filter(({ step }) => step === about);
  return (own.length > 0 ? own : read.problems).map(({ message, fix }) => `${message} ${fix}`);
}
