import { QUANTITY_KINDS } from '../../quantity/index.ts';
import { ACTION_FORMS } from '../action-text.ts';
import type { Expected, ProblemData } from '../tree-problem.ts';
import { cut, either, type Words } from './words.ts';

/** What a value must be, as the way out. */
export function expectedWords(expected: Expected): string {
  switch (expected.form) {
    case 'text':
      return 'Write some text.';
    case 'quoted-text':
      return 'Write its value in double quotes after an equals sign.';
    case 'name':
      return 'A name has small letters, digits and single hyphens: coil-rated.';
    case 'points':
      return 'Name two points, the red lead first: across="R to C".';
    case 'holds':
      return 'Name a setting and its state, several with commas: while="main-power on, heat-call on".';
    case 'minutes':
      return 'Write a number of minutes from 0 to 1440: minutes={2}.';
    case 'actions':
      return `An action is one of: ${ACTION_FORMS.join('; ')}. Several go with commas.`;
    case 'faults':
      return 'Name faults with commas: faults="coil-open, feed-missing"; or faults="none" where nothing wrong was found.';
    case 'formula':
      return 'Write a formula over facts and functions: by="dew-point(indoor, indoor-rh)".';
    case 'one-of':
      return expected.suggestion !== undefined ? `Did you mean “${expected.suggestion}”?` : `It is one of ${either(expected.known)}.`;
    case 'map':
      return 'Write a line for each name, indented under the key.';
    case 'list-of-names':
      return 'Write the names in brackets: [own-transformer].';
    case 'states':
      return 'Write at least two states in brackets, first the one it is found in: [on, off].';
    case 'choices':
      return 'Write at least two different names in brackets: [gas, oil]. “known” and “cannot” have a meaning of their own.';
    case 'meter':
      return 'Write it as a data sheet does: 1 % + 3 counts.';
    case 'recheck':
      return 'Name the step, and the way on that means the complaint is gone: water-runs is runs.';
    case 'file-name':
      return 'Name the file in small letters, digits and single hyphens, ending in .tree.mdx: no-heat.tree.mdx.';
    case 'quantity':
      return `Write a number with its unit${QUANTITY_KINDS[expected.kind].unit === '' ? '' : `, such as 24 ${QUANTITY_KINDS[expected.kind].unit}`}.`;
    case 'fact':
      return 'Write { quantity, ask, usual, from, to } for a quantity, or { choices, ask, usual } for a choice.';
    case 'usual-in-range':
      return 'The usual value lies between “from” and “to”, both included.';
    case 'usual-choice':
      return 'The usual value is one of the choices.';
    case 'range-in-order':
      return '“from” is the least that the fact may be, “to” the most.';
    case 'handoff-step':
      return 'Name a step with <Handoff>: it is where “cannot” goes.';
    case 'only-on-voltage':
      return 'It belongs on a voltage reading: takes="ac-voltage" or takes="dc-voltage".';
    case 'low-band-within-5-volts':
      return 'Points are proved dead by reading next to nothing across them: let the lowest band be “below 2 V”, and at most “below 5 V”.';
    case 'across-not-at':
      return 'This kind of reading is taken across two points: across="R to C", not at.';
    case 'at-not-across':
      return 'This kind of reading has no two leads: say where it is taken with at="flame-probe", not across.';
  }
}

/** For `bad-attribute`. */
export function badAttributeWords(data: Extract<ProblemData, { code: 'bad-attribute' }>): Words {
  const owner = data.owner.charAt(0).toUpperCase() + data.owner.slice(1);
  if (data.fault === 'missing') {
    return { message: `${owner} needs “${data.name}”.`, fix: data.expected ? expectedWords(data.expected) : 'Write it.' };
  }
  if (data.fault === 'twice') return { message: `“${data.name}” stands twice on ${data.owner}.`, fix: 'Keep one of the two.' };
  const got = data.got.trim() === '' ? 'is empty' : `cannot be “${cut(data.got)}”`;
  return { message: `“${data.name}” of ${data.owner} ${got}.`, fix: expectedWords(data.expected) };
}
