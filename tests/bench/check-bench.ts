import remarkFrontmatter from 'remark-frontmatter';
import remarkMdx from 'remark-mdx';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { readTree } from '../../engine/tree/index.ts';
import { type Bench, benchRow } from './bench-row.ts';
import { longTree } from './long-tree.ts';
import { medianTimes } from './median-times.ts';

const STEPS = 1000;

const bench: Bench = async () => {
  const text = longTree(STEPS);
  const check = () => readTree(text, { file: 'long.tree.mdx', surroundings: { benches: {}, trees: {}, functions: TRADE_FUNCTIONS } });
  const parser = unified().use(remarkParse).use(remarkFrontmatter).use(remarkMdx);
  const { tree, problems } = check();
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (tree?.steps.length !== STEPS || errors.length > 0)
    throw new Error(`The tree of the bench is not sound: ${errors[0]?.line} ${errors[0]?.message ?? 'steps'}`);
  const { ours, other } = medianTimes(check, () => parser.parse(text), { turns: 9, warmUp: 2 });
  return [
    benchRow(
      `check of a tree of ${STEPS} steps, ${Math.round(text.length / 1024)} kB`,
      ours,
      other,
      'a plain remark parse of the same text, nothing checked',
    ),
  ];
};

export default bench;
