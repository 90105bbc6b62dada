import type { ProblemData } from '../tree-problem.ts';
import { cut, either, type Words, whenFacts } from './words.ts';

type Of<C extends ProblemData['code']> = Extract<ProblemData, { code: C }>;

export const WAYS_ON_WORDING = {
  'missing-target': missingTarget,
  'unreachable-step': ({ title }: Of<'unreachable-step'>): Words => ({
    message: `No way on leads to “${cut(title)}”, so nobody ever gets there.`,
    fix: 'Lead to it from some step, or take it out.',
  }),
  'dead-end': ({ title, kind }: Of<'dead-end'>): Words => ({
    message: `“${cut(title)}” leads nowhere: it has no ways on.`,
    fix:
      kind === 'act'
        ? 'Add a <Next> with “- done: [Title of the next step](#…)”.'
        : 'Add a <Next> with a line for each thing that can come of it. Where the walk should end, use <Finding> or <Handoff>.',
  }),
  'endless-loop': ({ titles }: Of<'endless-loop'>): Words => ({
    message:
      titles.length === 1
        ? `“${cut(titles[0] ?? '')}” leads only back to itself.`
        : `These steps lead only to each other, and a walk never ends: ${either(titles.map(cut)).replace(' or ', ' and ')}.`,
    fix: 'Let one of them lead out of the loop, to a finding or a handoff.',
  }),
  'band-gap': bandGap,
  'band-overlap': bandOverlap,
  'way-on-missing': wayOnMissing,
  'repair-missing': ({ title }: Of<'repair-missing'>): Words => ({
    message: `“${cut(title)}” names what is wrong and not how to repair it.`,
    fix: 'Say it in <Repair> … </Repair>.',
  }),
};

function missingTarget({ what, name, tree, suggestion }: Of<'missing-target'>): Words {
  const shown = cut(name);
  const meant = suggestion === undefined ? undefined : `Did you mean “${suggestion}”?`;
  switch (what) {
    case 'step':
      return {
        message: `This leads to “#${shown}”, and there is no such step.`,
        fix: meant ?? "Lead to a step of this tree by its heading's words joined with hyphens.",
      };
    case 'tree':
      return {
        message: `This leads to the tree “${shown}”, which is not there.`,
        fix: meant ?? 'Write that tree first, beside this one, or lead elsewhere.',
      };
    case 'step-of-tree':
      return { message: `The tree “${tree}” has no step “#${shown}”.`, fix: meant ?? 'Lead to one of its steps, or to the tree itself.' };
    case 'figure':
      return { message: `The figure “${shown}” is not there.`, fix: meant ?? 'Put the picture in the figures folder beside the tree.' };
    case 'handoff':
      return { message: `“handoff” names “${shown}”, and there is no such step.`, fix: meant ?? 'Name a step with <Handoff>.' };
  }
}

function bandGap({ from, to, facts }: Of<'band-gap'>): Words {
  const range =
    from === undefined ? (to === undefined ? 'any reading' : `less than ${to}`) : to === undefined ? `${from} and more` : `${from} to ${to}`;
  return {
    message: `Nothing is said for ${range}${whenFacts(facts)}.`,
    fix: 'Move the edges of the bands together, add a band, or end the list with “otherwise”.',
  };
}

function bandOverlap(data: Of<'band-overlap'>): Words {
  if ('repeated' in data) return { message: `“${cut(data.repeated)}” stands twice.`, fix: 'Keep one of the two.' };
  const { from, to, bands, facts } = data;
  const range =
    from === undefined ? (to === undefined ? 'Every reading' : `Less than ${to}`) : to === undefined ? `${from} and more` : `${from} to ${to}`;
  return {
    message: `${range} falls in two bands${whenFacts(facts)}: “${cut(bands[0])}” and “${cut(bands[1])}”.`,
    fix: 'Let one band end where the other begins: a band holds its lower edge and not its upper one.',
  };
}

function wayOnMissing(data: Of<'way-on-missing'>): Words {
  const title = cut(data.title);
  switch (data.why) {
    case 'act-done':
      return { message: `“${title}” does not say what comes after it is done.`, fix: 'Add “- done: [Title of the next step](#…)” to its <Next>.' };
    case 'look-labels':
      return {
        message: `“${title}” has only one thing that can be seen.`,
        fix: 'Name what else the tech may see there: a look has at least two ways on.',
      };
    case 'reading-open':
      return { message: `“${title}” does not say what to do when the meter shows OL.`, fix: 'Add a way on for “open”, or for “otherwise”.' };
    case 'no-handoff':
      return {
        message: `There is nowhere to go when “${title}” cannot be done.`,
        fix: 'Add a step with <Handoff to="…" />: it says to stop and whom to call. Or give the step a way on for “cannot”.',
      };
    case 'ask-choice':
      return {
        message: `“${title}” has no way on for “${data.choice}”, a choice of ${data.fact}.`,
        fix: `Add “- ${data.choice}: [Title of the step](#…)”.`,
      };
  }
}
