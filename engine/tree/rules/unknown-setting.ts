import { didYouMean } from '../did-you-mean.ts';
import type { SettingHold } from '../tree.ts';
import { attributePlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** Every setting and state that a step wants or turns is one of the tree or of its benches. */
export function unknownSetting(input: RuleInput): readonly TreeProblem[] {
  const { settings, doubtfulNames } = input;
  if (!input.frontMatterReadable || input.benches.length < input.tree.benches.length) return [];
  const all = [...settings.keys()];
  const wrong = ({ setting, state }: SettingHold) => {
    if (doubtfulNames.has(setting)) return undefined;
    const states = settings.get(setting);
    if (!states) return { name: setting, known: all, suggestion: didYouMean(setting, all) };
    return states.includes(state) ? undefined : { name: state, of: setting, known: states, suggestion: didYouMean(state, states) };
  };
  return eachStep(input, ({ step, places, note }) => {
    if (note.doubtfulTask) return [];
    const turned = step.kind === 'act' ? step.does.flatMap((action) => (action.do === 'turn' ? [action] : [])) : [];
    return [...step.while.map((hold) => ['while', hold] as const), ...turned.map((action) => ['does', action] as const)].flatMap(
      ([attribute, hold]): TreeProblem[] => {
        const fault = wrong(hold);
        return fault ? [{ code: 'unknown-setting', ...fault, place: attributePlace(places, attribute) }] : [];
      },
    );
  });
}
