import { failure, type Result, success } from '../../engine/result.ts';
import { type Prose, readTree, writeProse } from '../../engine/tree/index.ts';

const AROUND = '---\ntitle: x\ncomplaint: x\n---\n\n## x\n\n<Handoff to="x" />\n\n';
const LINES_AROUND = AROUND.split('\n').length - 1;

/** What is wrong with a piece of prose, and where in it; the line counts from 1. */
export type ProseProblem = { readonly line: number; readonly message: string; readonly fix: string };

/** Reads Markdown as the prose of a step. What prose cannot hold is told, and the text is then not taken. */
export function readProse(markdown: string): Result<Prose, ProseProblem> {
  const { tree, problems } = readTree(`${AROUND}${markdown.trim()}\n`, {
    file: 'x.tree.mdx',
    surroundings: { benches: {}, trees: {}, functions: {} },
  });
  const step = tree?.steps[0];
  // A link may lead to a step that only the whole tree has; everything else that is told here is about the text itself.
  const first = problems.find(({ severity, line, code }) => severity === 'error' && line > LINES_AROUND && code !== 'missing-target');
  if (!tree || !step || step.kind !== 'handoff' || first) {
    return failure({
      line: Math.max(1, (first?.line ?? LINES_AROUND + 1) - LINES_AROUND),
      message: first?.message ?? 'This cannot be read as prose.',
      fix: first?.fix ?? 'Take out what is not plain text.',
    });
  }
  if (tree.steps.length > 1 || step.cautions.length > 0 || step.photos.length > 0) {
    return failure({
      line: 1,
      message: 'A step, a caution or a photo begins in this text.',
      fix: 'Headings here begin with ###; cautions and photos have fields of their own.',
    });
  }
  return success(step.prose);
}

/** Text as the reader of prose would give it back. */
export const plainProse = (markdown: string): string => {
  const read = readProse(markdown);
  return read.ok ? writeProse(read.value) : markdown;
};
