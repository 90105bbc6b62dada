import type { Problem } from '../problem.ts';
import { type PlacesByTree, type ProofProgress, proofProblems, proveTree, type TreeProof } from '../proof/index.ts';
import { failure, type Result, success } from '../result.ts';
import { type BestMinutes, bestMinutes } from '../suspects/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { buildEdition, compileEdition } from '../walk/index.ts';
import { checkFiles } from './check.ts';
import { folderOf, TreeFolder, treeName } from './tree-folder.ts';

export type ProveReport = {
  readonly ok: boolean;
  readonly problems: readonly Problem[];
  readonly faults: readonly {
    readonly id: string;
    readonly bench: string;
    readonly cases: number;
    /** Ids of the steps that walks ended on, with how many ended there. */
    readonly findings: Readonly<Record<string, number>>;
    readonly right: boolean;
    readonly steps: number;
    readonly minutes: number;
  }[];
  readonly rates: { readonly detected: number; readonly isolated1: number; readonly isolated2: number; readonly isolated3: number };
  readonly expectedMinutes: number;
  /** The fewest expected minutes known for these benches, counted with the tree's own minutes, and what no tree over the same readings stays below. */
  readonly bestMinutes: number;
  readonly bound: number;
  readonly healthy: boolean;
};

const NOTHING_PROVED: Omit<ProveReport, 'ok' | 'problems'> = {
  faults: [],
  rates: { detected: 0, isolated1: 0, isolated2: 0, isolated3: 0 },
  expectedMinutes: 0,
  bestMinutes: 0,
  bound: 0,
  healthy: false,
};

/** Where everything stands in the files of an edition made from a folder. */
export function placesIn(folder: TreeFolder, trees: readonly string[]): PlacesByTree {
  return Object.fromEntries(
    trees.flatMap((name) => {
      const read = folder.tree(name);
      return read ? [[name, read.places]] : [];
    }),
  );
}

/** Proves a tree file on its benches. A file with errors is not proved: its problems come back and nothing is claimed. */
export function proveFile(file: string, progress?: ProofProgress): Result<ProveReport, string> {
  const checked = checkFiles([file]);
  if (!checked.ok) return success({ ok: false, problems: checked.problems, ...NOTHING_PROVED });
  const folder = new TreeFolder(folderOf(file));
  const sources = folder.sources(treeName(file));
  const built = buildEdition(treeName(file), sources);
  if (!built.ok) return failure(`No edition can be made of ${file}: ${JSON.stringify(built.problem)}`);
  const edition = compileEdition(built.value, TRADE_FUNCTIONS);
  const proof = proveTree(edition, progress);
  // `check` has told the safety findings already; the proof's own list holds them too.
  const own = checked.problems.filter(({ code }) => !proof.safety.some(({ found }) => found.code === code));
  const problems = [...own, ...proofProblems(edition, proof, placesIn(folder, Object.keys(sources.trees)))];
  return success({ ok: !problems.some((p) => p.severity === 'error'), problems, ...proofFigures(proof, bestMinutes(edition)) });
}

function proofFigures(proof: TreeProof, best: BestMinutes): Omit<ProveReport, 'ok' | 'problems'> {
  const { detected, isolated1, isolated2, isolated3 } = proof.rates;
  // What a tree that misses nothing takes is known to be possible, whatever the search left out.
  const possible = proof.faults.every(({ right }) => right) ? proof.expectedMinutes : Number.POSITIVE_INFINITY;
  return {
    faults: proof.faults.map(({ id, bench, cases, findings, right, steps, minutes }) => ({
      id,
      bench,
      cases,
      findings: Object.fromEntries(Object.entries(findings).map(([key, count]) => [key.slice(key.indexOf('/') + 1), count])),
      right,
      steps: rounded(steps),
      minutes: rounded(minutes),
    })),
    rates: { detected, isolated1, isolated2, isolated3 },
    expectedMinutes: rounded(proof.expectedMinutes),
    bestMinutes: rounded(Math.min(best.minutes, possible)),
    bound: rounded(Math.min(best.bound, possible)),
    healthy: proof.healthy,
  };
}

const rounded = (value: number): number => Math.round(value * 100) / 100;

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/** A proof for people: what is wrong first, then each fault with where it ends, then the figures. */
export function proofText(report: ProveReport): string {
  const width = Math.max(5, ...report.faults.map(({ id }) => id.length));
  const rows = report.faults.map(
    ({ id, bench, right, minutes, findings }) =>
      `${right ? '  ' : '✗ '}${id.padEnd(width)}  ${minutes.toFixed(1).padStart(5)} min  ${bench}: ${Object.keys(findings).join(', ')}`,
  );
  if (rows.length === 0) return 'Nothing proved.';
  const { rates } = report;
  return [
    ...rows,
    `detected ${percent(rates.detected)}, isolated to one fault ${percent(rates.isolated1)}, to two ${percent(rates.isolated2)}, to three ${percent(rates.isolated3)}`,
    `expected ${report.expectedMinutes.toFixed(1)} min, best known ${report.bestMinutes.toFixed(1)} min, bound ${report.bound.toFixed(1)} min; a sound circuit ${report.healthy ? 'is found sound' : 'is NOT found sound'}`,
  ].join('\n');
}
