import { Document, isSeq, stringify } from 'yaml';
import { showRecheck } from '../recheck-text.ts';
import { type FactSpec, isChoice, type Tree } from '../tree.ts';

/** The front matter with its fences: a fixed order of keys, and a line for each fact and setting. */
export function writeFrontMatter(tree: Tree): string {
  const facts = Object.entries(tree.facts).map(([name, fact]) => `  ${scalar(name)}: ${factText(fact)}`);
  const settings = Object.entries(tree.settings).map(([name, states]) => `  ${scalar(name)}: ${list(states)}`);
  return [
    '---',
    `title: ${sentence(tree.title)}`,
    `complaint: ${sentence(tree.complaint)}`,
    ...(tree.benches.length > 0 ? [`benches: ${list(tree.benches)}`] : []),
    ...(facts.length > 0 ? ['facts:', ...facts] : []),
    ...(settings.length > 0 ? ['settings:', ...settings] : []),
    `meter: ${sentence(tree.meter)}`,
    ...(tree.recheck ? [`recheck: ${sentence(showRecheck(tree.recheck))}`] : []),
    ...(tree.handoff !== undefined ? [`handoff: ${scalar(tree.handoff)}`] : []),
    '---',
    '',
  ].join('\n');
}

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
