import type { Problem } from '../problem.ts';
import { PROBLEM_CODES } from './problem-codes.ts';
import { parseDocument } from './reader/parse-document.ts';
import { readFrontMatter } from './reader/read-front-matter.ts';
import { readOpening } from './reader/read-opening.ts';
import { readSection } from './reader/read-section.ts';
import type { ReaderContext } from './reader/reader-context.ts';
import { type SourceText, sourceText } from './reader/source-text.ts';
import { readRecheck } from './recheck-text.ts';
import { ruleProblems } from './rules/index.ts';
import { stepId } from './step-id.ts';
import type { Surroundings } from './surroundings.ts';
import { slugSchema, type Tree } from './tree.ts';
import type { TreeDraft } from './tree-draft.ts';
import type { TreePlaces } from './tree-places.ts';
import type { TreeProblem } from './tree-problem.ts';
import { worded } from './wording.ts';

export type ReadTreeOptions = {
  /** The file's path, for messages; its last part, without `.tree.mdx`, is the tree's name. */
  readonly file: string;
  readonly surroundings: Surroundings;
};

export type ReadTree = {
  /**
   * The tree, where all that is written could be taken in: then writing it loses nothing. It may still have errors that
   * forbid walking it.
   */
  readonly tree?: Tree;
  readonly places: TreePlaces;
  /** Everything found wrong, by place. */
  readonly problems: readonly Problem[];
};

/** Reads and checks a tree file. Never throws: whatever the text, what is wrong with it comes back as problems. */
export function readTree(text: string, { file, surroundings }: ReadTreeOptions): ReadTree {
  const found: TreeProblem[] = [];
  const source = sourceText(text);
  const draft = readDraft(source, file, surroundings, (problem) => found.push(problem));
  const complete = draft !== undefined && !found.some((problem) => PROBLEM_CODES[problem.code].severity === 'error');
  if (draft) for (const problem of ruleProblems(draft)) found.push(problem);
  const broken = found.some((problem) => problem.code === 'duplicate-step' || problem.code === 'no-start');
  const places: TreePlaces = draft?.places ?? {
    file,
    start: { line: 1, column: 1 },
    keys: new Map(),
    opening: { cautions: [], links: [] },
    steps: [],
  };
  const problems = found.map((problem) => worded(problem, file)).sort(byPlace);
  return { ...(complete && !broken && { tree: draft.tree }), places, problems };
}

const byPlace = (a: Problem, b: Problem): number =>
  a.line - b.line ||
  a.column - b.column ||
  (a.endLine ?? 0) - (b.endLine ?? 0) ||
  (a.endColumn ?? 0) - (b.endColumn ?? 0) ||
  (a.code < b.code ? -1 : 1);

/** `trees/no-heat.tree.mdx` is the tree `no-heat`. */
export function treeNameOf(file: string): string {
  const base = file.split(/[\\/]/).at(-1) ?? '';
  return base.replace(/\.tree\.mdx$/i, '').replace(/\.mdx?$/i, '');
}

function readDraft(source: SourceText, file: string, surroundings: Surroundings, report: ReaderContext['report']): TreeDraft | undefined {
  const written = treeNameOf(file);
  const name = slugSchema.safeParse(written).success ? written : stepId(written) || 'tree';
  if (name !== written) {
    report({
      code: 'bad-attribute',
      owner: 'the file',
      name: 'name',
      fault: 'wrong',
      got: written,
      expected: { form: 'file-name' },
      place: { line: 1, column: 1 },
    });
  }
  const document = parseDocument(source, report);
  if (!document) return undefined;
  const frontMatter = readFrontMatter(document.frontMatter, source, report);
  const context: ReaderContext = { source, surroundings, tree: name, report };
  const opening = readOpening(document.opening.nodes, context);
  const drafts = document.sections.map((section) => readSection(section, context));
  const steps = drafts.map((draft) => draft.step);
  const recheck = frontMatter.recheck === undefined ? undefined : readRecheck(frontMatter.recheck, steps);
  if (frontMatter.recheck !== undefined && !recheck) {
    const place = frontMatter.places.get('recheck') ?? source.placeAt(0, 3);
    report({
      code: 'bad-attribute',
      owner: 'the front matter',
      name: 'recheck',
      fault: 'wrong',
      got: frontMatter.recheck,
      expected: { form: 'recheck' },
      place,
    });
  }
  return {
    tree: {
      name,
      ...frontMatter.values,
      ...(recheck && { recheck }),
      ...(frontMatter.handoff !== undefined && { handoff: frontMatter.handoff }),
      opening: opening.opening,
      steps,
    },
    places: {
      file,
      start: document.frontMatter ? source.placeAt(0, 3) : source.placeAt(0, 0),
      keys: frontMatter.places,
      opening: { cautions: opening.cautions, links: opening.links },
      steps: drafts.map((draft) => draft.places),
    },
    surroundings,
    notes: drafts.map((draft) => draft.note),
    recheck: frontMatter.recheck,
    doubtfulNames: frontMatter.doubtful,
    frontMatterReadable: frontMatter.readable,
    doubtfulOpening: !document.opening.readable || opening.cautionLost,
  };
}
