import { type Bench, namesOf, prepare, readBench } from '../../engine/bench/index.ts';
import { draftProblemWords, draftTree, treeMinutes } from '../../engine/suspects/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { writeTree } from '../../engine/tree/index.ts';
import { type CompiledEdition, compileEdition } from '../../engine/walk/index.ts';
import { TreeChecker } from '../data/tree-checker.ts';
import { deskEdition } from '../proof/desk-edition.ts';
import type { DraftAnswer, DraftRequest } from './draft-message.ts';

/** Sets that the search may open before it gives the best found: half a minute on a laptop, and it can be stopped. */
export const MOST_SETS = 150_000;

/** Drafts a tree from a bench of the desk; `told` hears how far it is. */
export function draftFromBench({ bench: name, name: tree, title, sources }: DraftRequest, told: (answer: DraftAnswer) => void): DraftAnswer {
  told({ stage: 'reading', opened: 0, most: MOST_SETS });
  const source = sources.benches[name];
  if (source === undefined)
    return { stage: 'no-draft', message: 'This bench is no longer on the desk.', fix: 'Choose another, or undo its removal.', problems: [] };
  const { bench, problems } = readBench(source, { file: `trees/benches/${name}.bench.yaml` });
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (!bench || errors.length > 0)
    return {
      stage: 'no-draft',
      message: `The bench has ${errors.length === 1 ? 'an error' : `${errors.length} errors`}, so what its circuit shows cannot be told.`,
      fix: 'Put the bench right first.',
      problems: errors,
    };
  const crew = crewEdition(name, bench, sources);
  const drafted = draftTree(bench, {
    name: tree,
    bench: name,
    title,
    most: MOST_SETS,
    progress: (stage, opened) => told({ stage, opened, most: MOST_SETS }),
    ...(crew && { minutes: treeMinutes(crew, prepare(bench)) }),
  });
  if (!drafted.ok) return { stage: 'no-draft', ...draftProblemWords(drafted.problem), problems: [] };
  told({ stage: 'checking', opened: 0, most: MOST_SETS });
  const { tree: made, isolation, ambiguous } = drafted.value;
  const text = writeTree(made, { benches: { [name]: namesOf(bench) }, trees: {}, functions: TRADE_FUNCTIONS });
  const checker = new TreeChecker();
  const with_ = { ...sources, trees: { ...sources.trees, [tree]: text } };
  const checked = checker.read(tree, with_);
  return {
    stage: 'drafted',
    report: {
      text,
      steps: made.steps.length,
      findings: made.steps.filter(({ kind }) => kind === 'finding').length,
      minutes: isolation.minutes,
      bound: isolation.bound,
      method: isolation.method,
      ambiguous: ambiguous.map((group) => group.map((fault) => bench.faults[fault]?.says ?? fault.replaceAll('-', ' '))),
      ...(crew && { minutesFrom: crew.root.title }),
      problems: [...checked.problems, ...checker.paths(tree, with_, checked.read)],
    },
  };
}

/** The first tree of the desk that is about a bench and that an edition can be made of; drafts of it know no minutes of their own. */
function crewEdition(name: string, bench: Bench, sources: DraftRequest['sources']): CompiledEdition | undefined {
  for (const tree of Object.keys(sources.trees).sort()) {
    if (tree.endsWith('-draft') || !(sources.trees[tree] ?? '').includes(name)) continue;
    const made = deskEdition(tree, sources);
    if (!made.ok || made.value.edition.trees[tree]?.benches.includes(name) !== true) continue;
    if (Object.hasOwn(made.value.edition.benches, name) && Object.keys(bench.faults).length > 0)
      return compileEdition(made.value.edition, TRADE_FUNCTIONS);
  }
  return undefined;
}
