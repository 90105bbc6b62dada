import type { Step } from '../tree.ts';
import { attributePlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';
import type { Lead } from './step-graph.ts';

/** `state` is undefined where an Act turned the setting to a state that it does not have. */
type Visit = { readonly step: number; readonly state: string | undefined; readonly from: Visit | undefined; readonly on: string | undefined };

/**
 * What a step's `while` names holds on every path to it, given how the settings are found and what the Acts on the way
 * turned. Settings do not depend on each other, so each is followed by itself; the first path found is the shortest.
 */
export function settingNotHeld(input: RuleInput): readonly TreeProblem[] {
  const { tree, benches } = input;
  if (!input.frontMatterReadable || tree.steps.length === 0) return [];
  const wanted = new Set(tree.steps.flatMap((step) => step.while.map((hold) => hold.setting)));
  const problems = new Map<string, TreeProblem>();
  for (const setting of wanted) {
    if (input.doubtfulNames.has(setting)) continue;
    for (const found of asFound(setting, input)) {
      for (const [key, problem] of alongPaths(setting, found, input)) if (!problems.has(key)) problems.set(key, problem);
    }
  }
  return benches.length < tree.benches.length ? [] : [...problems.values()];
}

/** How a setting is found: as the tree says, or as each of its benches says. */
function asFound(setting: string, { tree, benches }: RuleInput): ReadonlySet<string> {
  const own = Object.hasOwn(tree.settings, setting) ? tree.settings[setting] : undefined;
  const lists = own ? [own] : benches.flatMap((bench) => (Object.hasOwn(bench.settings, setting) ? [bench.settings[setting] ?? []] : []));
  return new Set(lists.flatMap((states) => states.slice(0, 1)));
}

function alongPaths(setting: string, found: string, input: RuleInput): ReadonlyMap<string, TreeProblem> {
  const { tree, graph, notes, places, settings } = input;
  const problems = new Map<string, TreeProblem>();
  const visited = new Set<string>();
  const queue: Visit[] = [];
  const visit = (next: Visit): void => {
    const key = `${next.step} ${next.state}`;
    if (visited.has(key)) return;
    visited.add(key);
    queue.push(next);
  };
  visit({ step: 0, state: found, from: undefined, on: undefined });
  for (const at of queue) {
    const step = tree.steps[at.step];
    const own = places.steps[at.step];
    if (!step || !own || notes[at.step]?.doubtfulTask) continue;
    let { state } = at;
    const hold = step.while.find((h) => h.setting === setting);
    const states = settings.get(setting) ?? [];
    if (hold && state !== undefined && hold.state !== state && states.includes(hold.state)) {
      const key = `${at.step} ${setting}`;
      const path = pathOf(at, tree.steps, setting, found);
      if (!problems.has(key)) {
        problems.set(key, {
          code: 'setting-not-held',
          setting,
          wants: hold.state,
          is: state,
          title: step.title,
          step: step.id,
          place: attributePlace(own, 'while'),
          path,
        });
      }
      // What follows is judged as if it held: one missing Act is one problem, not one for every step after it.
      state = hold.state;
    }
    const before = state;
    if (step.kind === 'act')
      for (const action of step.does) {
        if (action.do === 'turn' && action.setting === setting) state = states.includes(action.state) ? action.state : undefined;
      }
    const go = (to: Lead | undefined, on: string, leaving: string | undefined): void => {
      if (typeof to === 'number') visit({ step: to, state: leaving, from: at, on });
    };
    for (const way of graph.ways[at.step] ?? []) go(way.to, way.on, state);
    // What cannot be done was not done.
    go(graph.cannot[at.step], 'cannot', before);
  }
  return problems;
}

/** Titles with what was found there, from the first step; the setting as found stands first. */
function pathOf(end: Visit, steps: readonly Step[], setting: string, found: string): readonly string[] {
  const path: string[] = [];
  for (let at: Visit | undefined = end, on: string | undefined; at; on = at.on, at = at.from) {
    const title = steps[at.step]?.title ?? '';
    path.unshift(on === undefined ? title : `${title}: ${on}`);
  }
  return [`${setting} ${found}`, ...path];
}
