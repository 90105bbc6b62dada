import { type Bench, parseBench } from '../bench/index.ts';
import { readBand, readFormula } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';
import { isChoice, type Step, type Target, type Tree, waysOf } from '../tree/index.ts';
import { type Edition, editionSchema } from './edition.ts';

export type EditionProblem =
  | { readonly code: 'not-an-edition'; readonly where: string; readonly detail: string }
  | { readonly code: 'tree-missing'; readonly tree: string }
  | { readonly code: 'bench-missing'; readonly tree: string; readonly bench: string }
  | { readonly code: 'figure-missing'; readonly tree: string; readonly figure: string }
  | { readonly code: 'step-missing'; readonly tree: string; readonly step: string }
  | { readonly code: 'band-not-readable'; readonly tree: string; readonly step: string; readonly on: string };

/** What an edition is made from: everything in the trees' folder, by name. */
export type EditionSources = {
  readonly trees: Readonly<Record<string, Tree>>;
  readonly benches: Readonly<Record<string, Bench>>;
  readonly figures: Readonly<Record<string, string>>;
};

const own = <T>(record: Readonly<Record<string, T>>, key: string): T | undefined => (Object.hasOwn(record, key) ? record[key] : undefined);

function targets(step: Step): readonly Target[] {
  return [...waysOf(step).map((way) => way.to), ...(step.cannot ? [step.cannot] : [])];
}

/** Gathers the trees that a tree leads to, and what they all need, into one edition. */
export function buildEdition(root: string, sources: EditionSources): Result<Edition, EditionProblem> {
  const trees: Record<string, Tree> = {};
  const benches: Record<string, Bench> = {};
  const figures: Record<string, string> = {};
  const waiting = [root];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (Object.hasOwn(trees, name)) continue;
    const tree = own(sources.trees, name);
    if (!tree) return failure({ code: 'tree-missing', tree: name });
    trees[name] = tree;
    for (const bench of tree.benches) {
      const found = own(sources.benches, bench);
      if (found === undefined) return failure({ code: 'bench-missing', tree: name, bench });
      benches[bench] = found;
    }
    for (const figure of figuresIn(tree)) {
      const data = own(sources.figures, figure);
      if (data === undefined) return failure({ code: 'figure-missing', tree: name, figure });
      figures[figure] = data;
    }
    for (const step of tree.steps) for (const { tree: other } of targets(step)) if (other !== undefined) waiting.push(other);
  }
  return readEdition({ format: 'ohmward-edition/1', root, trees, benches, figures });
}

/** The figures that a tree's prose shows. */
function figuresIn(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.flatMap(figuresIn);
  if (typeof value !== 'object' || value === null) return [];
  if ('type' in value && value.type === 'image' && 'url' in value && typeof value.url === 'string') return [value.url];
  return Object.values(value).flatMap(figuresIn);
}

/** Validates an edition from outside: its shape, and that every way leads somewhere and every band can be read. */
export function readEdition(input: unknown): Result<Edition, EditionProblem> {
  const parsed = editionSchema.safeParse(input);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    return failure({ code: 'not-an-edition', where: issue?.path.join('.') ?? '', detail: issue?.message ?? '' });
  }
  const edition = parsed.data;
  const broken = halfCharacter(edition);
  if (broken !== undefined) return failure({ code: 'not-an-edition', where: broken, detail: 'Half a character.' });
  for (const [name, bench] of Object.entries(edition.benches)) {
    const checked = parseBench(bench);
    if (!checked.ok) return failure({ code: 'not-an-edition', where: `benches.${name}`, detail: checked.problems[0]?.message ?? '' });
  }
  if (!own(edition.trees, edition.root)) return failure({ code: 'tree-missing', tree: edition.root });
  for (const [name, tree] of Object.entries(edition.trees)) {
    if (tree.name !== name) return failure({ code: 'tree-missing', tree: name });
    const problem = treeProblem(edition, tree);
    if (problem) return failure(problem);
  }
  return success(edition);
}

/** Where a text holds half of a character: it has no UTF-8, so that the edition would have no name. */
function halfCharacter(value: unknown, where = ''): string | undefined {
  if (typeof value === 'string') return /\p{Cs}/u.test(value) ? where : undefined;
  if (typeof value !== 'object' || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const found = /\p{Cs}/u.test(key) ? where : halfCharacter(inner, where === '' ? key : `${where}.${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}

function treeProblem(edition: Edition, tree: Tree): EditionProblem | undefined {
  for (const bench of tree.benches) if (!Object.hasOwn(edition.benches, bench)) return { code: 'bench-missing', tree: tree.name, bench };
  for (const step of [tree.handoff, tree.recheck?.step]) {
    if (step !== undefined && !tree.steps.some((s) => s.id === step)) return { code: 'step-missing', tree: tree.name, step };
  }
  const seen = new Set<string>();
  const twice = tree.steps.find(({ id }) => seen.size === seen.add(id).size)?.id;
  if (twice !== undefined) return { code: 'not-an-edition', where: `${tree.name}/${twice}`, detail: 'two steps have this id' };
  for (const step of tree.steps) {
    for (const target of targets(step)) {
      const other = own(edition.trees, target.tree ?? tree.name);
      if (!other) return { code: 'tree-missing', tree: target.tree ?? tree.name };
      if (!other.steps.some((s) => s.id === target.step)) return { code: 'step-missing', tree: other.name, step: target.step };
    }
    const unread = step.computed?.find(({ by }) => !readFormula(by).ok);
    if (unread) return { code: 'not-an-edition', where: `${tree.name}/${step.id}`, detail: `the formula “${unread.by}” cannot be read` };
    const fact = step.kind === 'ask' ? own(tree.facts, step.fact) : undefined;
    const banded = step.kind === 'reading' || (step.kind === 'ask' && fact !== undefined && !isChoice(fact));
    const bad = banded ? waysOf(step).find((way) => way.on !== 'known' && !readBand(way.on).ok) : undefined;
    if (bad) return { code: 'band-not-readable', tree: tree.name, step: step.id, on: bad.on };
  }
  return undefined;
}
