import { quantityKind } from '../../engine/quantity/index.ts';
import { type Action, type FactSpec, isChoice, type Signal, type Step } from '../../engine/tree/index.ts';
import { CAUTION_WORDS } from '../../shared/ui/caution-plate.tsx';

/** What the instrument is set to, or what is done instead of reading one. */
export function settingWords(step: Step): string {
  switch (step.kind) {
    case 'reading':
      return step.input === 'low' ? `${quantityKind(step.takes).label}, low impedance` : quantityKind(step.takes).label;
    case 'look':
      return 'Look';
    case 'act':
      return 'Do';
    case 'ask':
      return 'Tell';
    case 'finding':
    case 'handoff':
      return '';
  }
}

const plain = (name: string): string => name.replaceAll('-', ' ');

/** One change to the circuit, as short as it can be told. */
function shortAction(action: Action): string {
  switch (action.do) {
    case 'turn':
      return `${plain(action.setting)} ${plain(action.state)}`;
    case 'jumper':
      return `jumper ${action.from} to ${action.to}`;
    case 'remove-jumper':
      return `jumper ${action.from} to ${action.to} off`;
    case 'lift':
      return `lift ${plain(action.lead)}`;
    case 'land':
      return `land ${plain(action.lead)}`;
    case 'prove-meter':
      return 'prove the meter';
  }
}

/** Where the leads go, or what is looked at, done or told. */
export function placeWords(step: Step, facts: Readonly<Record<string, FactSpec>>): string {
  switch (step.kind) {
    case 'reading':
      return step.across ? `red ${plain(step.across[0])}, black ${plain(step.across[1])}` : plain(step.at ?? '');
    case 'look':
      return step.at ?? '';
    case 'act':
      return step.does.length === 0 ? 'as the step says' : step.does.map(shortAction).join('; ');
    case 'ask':
      return facts[step.fact]?.ask ?? step.fact;
    case 'finding':
    case 'handoff':
      return '';
  }
}

/** The usual value of a fact, as people write it. */
export const usualWords = (fact: FactSpec): string => (isChoice(fact) ? plain(fact.usual) : signs(fact.usual).replaceAll(' ', '\u00a0'));

/** Units as signs and powers raised, where a file has plain letters. */
export const signs = (text: string): string =>
  text
    .replace(/\b(ft|in|m)([23])\b/g, (_, unit: string, power: string) => unit + (power === '2' ? '²' : '³'))
    .replace(/(?<=\d )([kM]?)ohm\b/g, '$1Ω')
    .replace(/(?<=\d )uA\b/g, 'µA');

/** A signal word with what it is about, such as `gas`. */
export type CautionMark = { readonly signal: Signal; readonly about: string };

/** What a step's own cautions are, without their text. */
export const cautionMarks = (step: Step): readonly CautionMark[] =>
  step.cautions.map(({ signal, about }) => ({ signal, about: CAUTION_WORDS[about] }));

/** Which text the sheet was printed from. */
export type SheetEdition =
  | { readonly is: 'published'; readonly hash: string }
  | { readonly is: 'changed-since'; readonly hash: string }
  | { readonly is: 'not-published' };

export function editionWords(edition: SheetEdition): string {
  switch (edition.is) {
    case 'published':
      return `Edition ${edition.hash.slice(0, 8)}`;
    case 'changed-since':
      return `Draft, changed since edition ${edition.hash.slice(0, 8)}: not for a call`;
    case 'not-published':
      return 'Draft, not published: not for a call';
  }
}

export const SHEET_WORDS = {
  title: 'Sheet',
  print: 'Print the sheet',
  lead: 'Two pages, letter or A4, to take along where no phone goes: bands and findings. The steps in full stand under Read.',
  tooLong: 'This tree is too long for two pages: its sheet takes more.',
  usual: 'The usual house:',
  marked: 'follows the house; the number is that of the usual one. In another house the phone works it out.',
  noFit: 'A reading that fits no line:',
  thenCall: (handoff: string) =>
    `leads and setting checked, take it once more. It still fits none, or a step cannot be done: ${handoff}. Nothing is guessed, no part is changed.`,
  steps: ['Step, meter, leads', 'When it shows', 'Go to'],
  held: 'With',
  byStep: 'Cautions of single steps',
  findings: 'Findings and repairs',
  practice: 'Local code, the maker’s instructions and licensed practice come before this sheet. After a repair: all put back, then',
  recheck: (title: string, passes: string) => `“${title}” must come to “${passes}”.`,
  ladder: 'The circuit at rest:',
} as const;
