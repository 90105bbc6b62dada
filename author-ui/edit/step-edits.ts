import { type Step, type StepKind, stepId, type Target, type Tree, type Way, waysOf } from '../../engine/tree/index.ts';

/** The tree with one step changed; the same tree where it is not there or the change makes no difference. */
export function changeStep(tree: Tree, id: string, change: (step: Step) => Step): Tree {
  const step = tree.steps.find((one) => one.id === id);
  const changed = step && change(step);
  if (!step || !changed || changed === step) return tree;
  return { ...tree, steps: tree.steps.map((one) => (one === step ? changed : one)) };
}

const NEW_TITLES: Readonly<Record<StepKind, string>> = {
  reading: 'New reading',
  look: 'New look',
  act: 'New act',
  ask: 'New question',
  finding: 'New finding',
  handoff: 'New handoff',
};

/** A title that no step has yet: `New reading`, `New reading 2`, … */
export function freeTitle(tree: Tree, wanted: string): string {
  const taken = new Set(tree.steps.map(({ id }) => id));
  for (let count = 1; ; count += 1) {
    const title = count === 1 ? wanted : `${wanted} ${count}`;
    if (!taken.has(stepId(title))) return title;
  }
}

/** A step of a kind with nothing said yet. What it needs is told by its problems. */
function emptyStep(kind: StepKind, title: string, tree: Tree): Step {
  const common = { id: stepId(title), title, minutes: 1, while: [], cautions: [], prose: [], photos: [] };
  switch (kind) {
    case 'reading':
      return { kind, ...common, takes: 'ac-voltage', ways: [] };
    case 'look':
      return { kind, ...common, ways: [] };
    case 'act':
      return { kind, ...common, does: [{ do: 'prove-meter' }], ways: [] };
    case 'ask':
      return { kind, ...common, fact: Object.keys(tree.facts)[0] ?? 'fact', ways: [] };
    case 'finding':
      return { kind, ...common, minutes: 0, faults: [], repair: [] };
    case 'handoff':
      return { kind, ...common, minutes: 0, to: 'the senior tech' };
  }
}

/** What an edit that makes a step comes to: the tree, and the id of the step to show. */
export type WithStep = { readonly tree: Tree; readonly id: string };

/** Adds an empty step of a kind behind another, or at the end. */
export function addStep(tree: Tree, kind: StepKind, after: string | undefined): WithStep {
  const step = emptyStep(kind, freeTitle(tree, NEW_TITLES[kind]), tree);
  return { tree: insertAfter(tree, step, after), id: step.id };
}

/** Adds the same step once more, behind it, under a title of its own. */
export function duplicateStep(tree: Tree, id: string): WithStep {
  const step = tree.steps.find((one) => one.id === id);
  if (!step) return { tree, id };
  const title = freeTitle(tree, `${step.title}, copy`);
  return { tree: insertAfter(tree, { ...step, title, id: stepId(title) }, id), id: stepId(title) };
}

function insertAfter(tree: Tree, step: Step, after: string | undefined): Tree {
  const at = tree.steps.findIndex((one) => one.id === after);
  return { ...tree, steps: at === -1 ? [...tree.steps, step] : tree.steps.toSpliced(at + 1, 0, step) };
}

/** Takes a step out; a tree keeps its last one. Ways that led to it stay, and are told as problems, since only the author knows where they go now. */
export function removeStep(tree: Tree, id: string): WithStep {
  const at = tree.steps.findIndex((one) => one.id === id);
  if (at === -1 || tree.steps.length === 1) return { tree, id };
  const steps = tree.steps.toSpliced(at, 1);
  return { tree: { ...tree, steps }, id: steps[Math.min(at, steps.length - 1)]?.id ?? id };
}

/** Moves a step up or down the document by so many places. */
export function moveStep(tree: Tree, id: string, by: number): Tree {
  const at = tree.steps.findIndex((one) => one.id === id);
  const to = Math.min(tree.steps.length - 1, Math.max(0, at + by));
  const step = tree.steps[at];
  return !step || to === at ? tree : { ...tree, steps: tree.steps.toSpliced(at, 1).toSpliced(to, 0, step) };
}

/** Makes a step one of another kind; what both kinds have is kept. */
export function changeKind(tree: Tree, id: string, kind: StepKind): Tree {
  return changeStep(tree, id, (step) => {
    if (step.kind === kind) return step;
    const { title, while: held, cautions, prose, computed, photos, cannot } = step;
    const empty = emptyStep(kind, title, tree);
    const common = {
      id,
      title,
      while: held,
      cautions,
      prose,
      ...(computed && { computed }),
      photos,
      minutes: empty.minutes === 0 ? 0 : step.minutes || empty.minutes,
    };
    const way = cannot && 'ways' in empty ? { cannot } : {};
    // An act has one way, `done`; what else could be taken along has labels of another kind.
    const ways =
      'ways' in empty
        ? {
            ways:
              kind === 'act'
                ? waysOf(step)
                    .slice(0, 1)
                    .map(({ to }) => ({ on: 'done', to }))
                : [...waysOf(step)],
          }
        : {};
    return { ...empty, ...common, ...way, ...ways } as Step;
  });
}

/** Every place of the tree that leads to a step. */
export function leadsTo(tree: Tree, id: string): readonly Step[] {
  const isHere = (to: Target | undefined): boolean => to !== undefined && to.step === id && (to.tree === undefined || to.tree === tree.name);
  return tree.steps.filter((step) => waysOf(step).some(({ to }) => isHere(to)) || isHere(step.cannot));
}

/** Gives a step other ways on. Where the way that the recheck waits for gets another label, the recheck waits for that. */
export function changeWays(tree: Tree, id: string, ways: readonly Way[]): Tree {
  const before = tree.steps.find((step) => step.id === id);
  const next = changeStep(tree, id, (step) => ('ways' in step ? { ...step, ways: [...ways] } : step));
  const { recheck } = tree;
  if (!before || recheck?.step !== id || ways.some(({ on }) => on === recheck.passes)) return next;
  const relabeled = ways.length === waysOf(before).length ? ways[waysOf(before).findIndex(({ on }) => on === recheck.passes)] : undefined;
  return relabeled ? { ...next, recheck: { step: id, passes: relabeled.on } } : next;
}
