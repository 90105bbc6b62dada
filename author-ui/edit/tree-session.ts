import { type Step, type Surroundings, type Tree, type TreePlaces, waysOf, writeTreeParts } from '../../engine/tree/index.ts';

/** One piece of a tree's file: its text, and the empty lines after it. */
type Section = { readonly text: string; readonly gap: string };

/** A tree and the file it was read from, cut at its steps, so that an edit of the tree can replace just the pieces that it is about. */
export type TreeSession = {
  readonly text: string;
  readonly tree: Tree;
  readonly head: Section;
  readonly steps: ReadonlyMap<string, Section>;
};

const section = (raw: string): Section => {
  const text = raw.trimEnd();
  return { text, gap: raw.slice(text.length) };
};

/** Cuts a text at the headings of its steps. `places` are those of the same text. */
export function treeSession(text: string, tree: Tree, places: TreePlaces): TreeSession {
  const lines = text.split(/(?<=\n)/);
  const starts = places.steps.map(({ heading }) => heading.line - 1);
  const cut = (from: number, to: number | undefined): Section => section(lines.slice(from, to).join(''));
  const steps = new Map(tree.steps.map((step, index) => [step.id, cut(starts[index] ?? lines.length, starts[index + 1])]));
  return { text, tree, head: cut(0, starts[0]), steps };
}

/** The session after an edit of its tree: pieces whose canonical text the edit changes are written anew, all others stay as they are. */
export function withTree(session: TreeSession, tree: Tree, surroundings: Surroundings): TreeSession {
  const before = writeTreeParts(session.tree, surroundings);
  const after = writeTreeParts(tree, surroundings);
  const fresh = (text: string): Section => ({ text: session.text.includes('\r\n') ? text.replaceAll('\n', '\r\n') : text, gap: '' });
  const titles = new Map(session.tree.steps.map((step) => [step.id, step]));
  const retitled = new Set(tree.steps.filter(({ id, title }) => titles.get(id)?.title !== title).map(({ id }) => id));
  for (const { id } of session.tree.steps) if (!tree.steps.some((step) => step.id === id)) retitled.add(id);
  const head = after.head();
  const steps = new Map<string, Section>();
  for (const step of tree.steps) {
    const old = titles.get(step.id);
    const kept = session.steps.get(step.id);
    const same = old !== undefined && kept !== undefined && ((old === step && !leadsToAny(step, retitled)) || before.step(old) === after.step(step));
    steps.set(step.id, same ? kept : fresh(after.step(step)));
  }
  const sections = [before.head() === head ? session.head : fresh(head), ...steps.values()];
  return { text: joined(sections, session.text.includes('\r\n') ? '\r\n' : '\n'), tree, head: sections[0] ?? session.head, steps };
}

function leadsToAny(step: Step, ids: ReadonlySet<string>): boolean {
  return ids.size > 0 && [...waysOf(step).map((way) => way.to), ...(step.cannot ? [step.cannot] : [])].some(({ step: to }) => ids.has(to));
}

/** Pieces with an empty line between them at least, and one line end at the end. */
function joined(sections: readonly Section[], newline: string): string {
  const last = sections.length - 1;
  return sections
    .map(({ text, gap }, index) => {
      if (index === last) return text + (gap.includes('\n') ? gap : newline);
      return text + (gap.split('\n').length > 2 ? gap : newline + newline);
    })
    .join('');
}
