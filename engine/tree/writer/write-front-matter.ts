import { Document, isSeq, stringify } from 'yaml';
import { showRecheck } from '../recheck-text.ts';
import { type FactSpec, isChoice, type Tree } from '../tree.ts';

/** One key of the front matter as it is written: its line, or the line that opens a map and the lines inside. */
export type FrontMatterEntry = { readonly key: string; readonly text: string; readonly inside?: readonly FrontMatterEntry[] };

/** The front matter with its fences: a fixed order of keys, and a line for each fact and setting. */
export function writeFrontMatter(tree: Tree): string {
  const lines = frontMatterEntries(tree).flatMap(entryLines);
  return ['---', ...lines, '---', ''].join('\n');
}

/** The keys of a tree's front matter, in their order. */
export function frontMatterEntries(tree: Tree): readonly FrontMatterEntry[] {
  const line = (key: string, value: string): FrontMatterEntry => ({ key, text: `${key}: ${value}` });
  const map = <T>(key: string, of: Readonly<Record<string, T>>, value: (one: T) => string): FrontMatterEntry[] => {
    const inside = Object.entries(of).map(([name, one]) => ({ key: name, text: `  ${scalar(name)}: ${value(one)}` }));
    return inside.length === 0 ? [] : [{ key, text: `${key}:`, inside }];
  };
  return [
    line('title', sentence(tree.title)),
    line('complaint', sentence(tree.complaint)),
    ...(tree.benches.length > 0 ? [line('benches', list(tree.benches))] : []),
    ...map('facts', tree.facts, factText),
    ...map('settings', tree.settings, list),
    line('meter', sentence(tree.meter)),
    ...(tree.recheck ? [line('recheck', sentence(showRecheck(tree.recheck)))] : []),
    ...(tree.handoff !== undefined ? [line('handoff', scalar(tree.handoff))] : []),
  ];
}

export const entryLines = ({ text, inside = [] }: FrontMatterEntry): readonly string[] => [text, ...inside.flatMap(entryLines)];

function factText(fact: FactSpec): string {
  const entries: readonly (readonly [string, string])[] = isChoice(fact)
    ? [
        ['choices', list(fact.choices)],
        ['ask', scalar(fact.ask)],
        ['usual', scalar(fact.usual)],
      ]
    : (['quantity', 'ask', 'usual', 'from', 'to'] as const).map((key) => [key, scalar(fact[key])]);
  return `{ ${entries.map(([key, text]) => `${key}: ${text}`).join(', ')} }`;
}

const list = (texts: readonly string[]): string => `[${texts.map(scalar).join(', ')}]`;

/** Text as a YAML scalar that is text to every reader of YAML, quoted only where it must be; safe inside `[ ]` and `{ }`. */
function scalar(text: string): string {
  const document = new Document([text]);
  if (isSeq(document.contents)) document.contents.flow = true;
  return document.toString({ lineWidth: 0, flowCollectionPadding: false }).trimEnd().slice(1, -1);
}

/** As `scalar`, on a line of its own, where commas and brackets are plain text. */
const sentence = (text: string): string => stringify(text, { lineWidth: 0, blockQuote: false }).trimEnd();
