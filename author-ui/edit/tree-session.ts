import { editFrontMatter, type Step, type Surroundings, type Tree, type TreePlaces, waysOf, writeTreeParts } from '../../engine/tree/index.ts';

/** One piece of a tree's file: its text, and the empty lines after it. */
type Section = { readonly text: string; readonly gap: string };

/** A tree and the file it was read from, cut at its steps, so that an edit of the tree can replace just the pieces that it is about. */
export type TreeSession = {
  readonly text: string;
  readonly tree: Tree;
  /** Front matter with its fences; absent where the file has none. */
  readonly front: Section;
  readonly opening: Section;
  readonly steps: ReadonlyMap<string, Section>;
};

const section = (raw: string): Section => {
  const text = raw.trimEnd();
  return { text, gap: raw.slice(text.length) };
};

/** Cuts a text behind its front matter and at the headings of its steps. `places` are those of the same text. */
export function treeSession(text: string, tree: Tree, places: TreePlaces): TreeSession {
  const lines = text.split(/(?<=\n)/);
  const starts = places.steps.map(({ heading }) => heading.line - 1);
  const cut = (from: number, to: number | undefined): Section => section(lines.slice(from, to).join(''));
  const steps = new Map(tree.steps.map((step, index) => [step.id, cut(starts[index] ?? lines.length, starts[index + 1])]));
  const isFence = (line: string): boolean => line.trimEnd() === '---';
  const fence = isFence(lines[0]?.replace(/^\uFEFF/, '') ?? '') ? lines.findIndex((line, at) => at > 0 && isFence(line)) : -1;
  let behind = fence + 1;
  while (behind < (starts[0] ?? lines.length) && lines[behind]?.trim() === '') behind += 1;
  return { text, tree, front: cut(0, behind), opening: cut(behind, starts[0]), steps };
}

/** The session after an edit of its tree: pieces whose canonical text the edit changes are written anew, all others stay as they are. */
export function withTree(session: TreeSession, tree: Tree, surroundings: Surroundings): TreeSession {
  const before = writeTreeParts(session.tree, surroundings);
  const after = writeTreeParts(tree, surroundings);
  const fresh = (text: string): Section => ({ text: session.text.includes('\r\n') ? text.replaceAll('\n', '\r\n') : text, gap: '' });
  const titles = new Map(session.tree.steps.map((step) => [step.id, step]));
  const retitled = new Set(tree.steps.filter(({ id, title }) => titles.get(id)?.title !== title).map(({ id }) => id));
  for (const { id } of session.tree.steps) if (!tree.steps.some((step) => step.id === id)) retitled.add(id);
  const steps = new Map<string, Section>();
  for (const step of tree.steps) {
    const old = titles.get(step.id);
    const kept = session.steps.get(step.id);
    const same = old !== undefined && kept !== undefined && ((old === step && !leadsToAny(step, retitled)) || before.step(old) === after.step(step));
    steps.set(step.id, same ? kept : fresh(after.step(step)));
  }
  const opening = before.opening() === after.opening() ? session.opening : fresh(after.opening());
  const front = frontAfter(session, tree);
  const sections = [front, opening, ...steps.values()].filter(({ text }) => text !== '');
  return { text: joined(sections, session.text.includes('\r\n') ? '\r\n' : '\n'), tree, front, opening, steps };
}

/** The front matter after an edit: keys that the edit is not about stay as they are written, with what is remarked beside them. */
function frontAfter({ front, text, tree: before }: TreeSession, tree: Tree): Section {
  const edited = editFrontMatter(front.text.replaceAll('\r\n', '\n'), before, tree);
  const written = text.includes('\r\n') ? edited.replaceAll('\n', '\r\n') : edited;
  return written === front.text ? front : { text: written, gap: front.gap };
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
