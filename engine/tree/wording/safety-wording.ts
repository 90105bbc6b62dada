import type { ProblemData } from '../tree-problem.ts';
import { cut, type Words } from './words.ts';

type Of<C extends ProblemData['code']> = Extract<ProblemData, { code: C }>;

export const SAFETY_WORDING = {
  'no-caution': ({ title }: Of<'no-caution'>): Words => ({
    message: `“${cut(title)}” has no caution, and neither has the opening.`,
    fix: 'Put a <Caution> on the step, or one in the opening that holds for every step.',
  }),
  'caution-too-mild': ({ title, about, needs, has }: Of<'caution-too-mild'>): Words => ({
    message:
      has === undefined
        ? `“${cut(title)}” has no caution about ${about}.`
        : `“${cut(title)}” warns about ${about} with “${has}”; the work calls for “${needs}”.`,
    fix: `Give it a <Caution signal="${needs}" about="${about}">.`,
  }),
  'resistance-while-live': ({ title, points, source }: Of<'resistance-while-live'>): Words => ({
    message: `“${cut(title)}” reads ohms between ${points.join(' and ')}, which ${source} makes live.`,
    fix: 'Turn that source off and prove the points dead before it.',
  }),
  'touched-while-live': ({ title, action, point, source }: Of<'touched-while-live'>): Words => ({
    message: `“${cut(title)}” would ${action} at ${point}, which ${source} makes live.`,
    fix: 'Turn that source off and prove the point dead before hands go there.',
  }),
  'not-proved-dead': ({ title, points, source, when }: Of<'not-proved-dead'>): Words => ({
    message: `On “${cut(title)}” ${points.join(' and ')} could be live from ${source}${when === '' ? '' : ` (${when})`}, and nothing proved ${points.length === 1 ? 'it' : 'them'} dead.`,
    fix: 'Put a voltage reading of these points with proves="dead" before it, after the last change of power.',
  }),
  'meter-not-proved': ({ title, when }: Of<'meter-not-proved'>): Words => ({
    message: `“${cut(title)}” proves points dead with a meter that is not proved ${when} it.`,
    fix: 'Live, dead, live: put an <Act does="prove the meter" /> before and after it.',
  }),
  'left-in-place': ({ title, left, why }: Of<'left-in-place'>): Words =>
    why === 'some-paths'
      ? {
          message: `Some walks come to “${cut(title)}” with ${left} still in place, and some without.`,
          fix: 'Put it back on every way there, so that the step means the same on each.',
        }
      : {
          message: `A walk can end at “${cut(title)}” with ${left} that cannot safely be put back from there.`,
          fix: 'Put it back on the way there, or make it safe first: power off, and proved dead.',
        },
  'safety-bypassed': ({ title, part, action }: Of<'safety-bypassed'>): Words => ({
    message: `“${cut(title)}” would ${action}, past the safety ${part}, while what it guards can run.`,
    fix: 'Never jumper a safety on running equipment: turn what it guards off, or read across it instead.',
  }),
  'no-recheck': noRecheck,
};

function noRecheck(data: Of<'no-recheck'>): Words {
  switch (data.why) {
    case 'not-named':
      return {
        message: 'The tree does not say how the complaint is tried again after the repair.',
        fix: 'Add “recheck: water-runs is runs” to the front matter: the step, and the way on that means the complaint is gone.',
      };
    case 'no-such-step':
      return {
        message: `“recheck” names the step “${cut(data.text)}”, which is not there.`,
        fix: data.suggestion === undefined ? 'Name a step of this tree.' : `Did you mean “${data.suggestion}”?`,
      };
    case 'no-such-way':
      return {
        message: `“recheck” waits for “${cut(data.text)}”, which is no way on of its step.`,
        fix: data.suggestion === undefined ? 'Name one of its ways on.' : `Did you mean “${data.suggestion}”?`,
      };
    case 'an-end':
      return {
        message: `“recheck” names “${cut(data.text)}”, where a walk ends and nothing is tried.`,
        fix: 'Name the step at which the complaint is seen or read.',
      };
  }
}
