import { failure, type Result, success } from '../../engine/result.ts';
import { type Block, type Inline, type ListItem, type Prose, type Step, stepId, type Target, type Tree } from '../../engine/tree/index.ts';

export type RenameProblem =
  | { readonly code: 'no-title' }
  /** The title has no letter or digit that an id could be made of. */
  | { readonly code: 'no-id' }
  | { readonly code: 'taken'; readonly title: string };

/** What a rename changed: the tree, and the step's id in it. */
export type Renamed = { readonly tree: Tree; readonly id: string };

/**
 * Gives a step another title. Its id follows unless it was one of its own, and everything in the tree that leads to the step follows too:
 * ways on, `cannot`, the recheck, the handoff and links in prose.
 */
export function renameStep(tree: Tree, id: string, title: string): Result<Renamed, RenameProblem> {
  const step = tree.steps.find((one) => one.id === id);
  const plain = title.trim().replace(/\s+/g, ' ');
  if (plain === '') return failure({ code: 'no-title' });
  if (!step || step.title === plain) return success({ tree, id });
  const to = stepId(step.title) === id ? stepId(plain) : id;
  const retitled: Tree = { ...tree, steps: tree.steps.map((one) => (one.id === id ? { ...one, title: plain } : one)) };
  return withId(retitled, id, to);
}

/** Gives a step another id, and leads everything there. */
export function withId(tree: Tree, id: string, to: string): Result<Renamed, RenameProblem> {
  if (to === '') return failure({ code: 'no-id' });
  if (to === id) return success({ tree, id });
  const other = tree.steps.find((one) => one.id === to);
  if (other) return failure({ code: 'taken', title: other.title });
  const target = (from: Target): Target => (from.step === id && (from.tree === undefined || from.tree === tree.name) ? { ...from, step: to } : from);
  const prose = (from: Prose): Prose => relinked(from, id, to);
  const steps = tree.steps.map((step) => {
    const moved = movedStep(step, target, prose);
    return step.id === id ? { ...moved, id: to } : moved;
  });
  const opening = { prose: [...prose(tree.opening.prose)], cautions: tree.opening.cautions.map((one) => ({ ...one, prose: [...prose(one.prose)] })) };
  return success({
    id: to,
    tree: {
      ...tree,
      steps,
      opening: JSON.stringify(opening) === JSON.stringify(tree.opening) ? tree.opening : opening,
      ...(tree.recheck?.step === id && { recheck: { ...tree.recheck, step: to } }),
      ...(tree.handoff === id && { handoff: to }),
    },
  });
}

function movedStep(step: Step, target: (from: Target) => Target, prose: (from: Prose) => Prose): Step {
  const moved: Step = {
    ...step,
    prose: [...prose(step.prose)],
    cautions: step.cautions.map((one) => ({ ...one, prose: [...prose(one.prose)] })),
    ...(step.cannot && { cannot: target(step.cannot) }),
  };
  const whole: Step =
    'ways' in moved
      ? { ...moved, ways: moved.ways.map((way) => ({ ...way, to: target(way.to) })) }
      : moved.kind === 'finding'
        ? { ...moved, repair: [...prose(moved.repair)] }
        : moved;
  // The same value where nothing changed, so that its text is left alone.
  return JSON.stringify(whole) === JSON.stringify(step) ? step : whole;
}

function relinked(prose: Prose, id: string, to: string): Prose {
  const leads = (url: string): boolean => url.startsWith('#') && stepId(url.slice(1)) === id;
  const inline = (part: Inline): Inline => {
    if (part.type === 'link') return { ...part, url: leads(part.url) ? `#${to}` : part.url, children: part.children.map(inline) };
    return 'children' in part ? { ...part, children: part.children.map(inline) } : part;
  };
  const item = (part: ListItem): ListItem => ({ ...part, children: part.children.map(block) });
  const block = (part: Block): Block => {
    switch (part.type) {
      case 'paragraph':
      case 'heading':
        return { ...part, children: part.children.map(inline) };
      case 'blockquote':
        return { ...part, children: part.children.map(block) };
      case 'list':
        return { ...part, children: part.children.map(item) };
      default:
        return part;
    }
  };
  return prose.map(block);
}

/** The same for the text of another tree that leads to the step. */
export const relinkedElsewhere = (text: string, tree: string, id: string, to: string): string =>
  text.replace(/([a-z0-9-]+)\.tree\.mdx#([^\s)"]+)/g, (whole, name: string, anchor: string) =>
    name === tree && stepId(anchor) === id ? `${name}.tree.mdx#${to}` : whole,
  );
