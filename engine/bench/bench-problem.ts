import type { ComputeProblem, FormulaProblem } from '../formula/index.ts';
import type { Severity } from '../problem.ts';
import type { Path } from './yaml-source.ts';

/** Everything that can be wrong with a bench, as data. The words are in wording.ts, each with a sample in trees/benches/README.md. */
export type BenchTrouble =
  | { readonly code: 'not-readable'; readonly detail: string }
  | { readonly code: 'too-big'; readonly what: string; readonly got: number; readonly most: number }
  | { readonly code: 'duplicate-name'; readonly name: string; readonly as: readonly string[] }
  | { readonly code: 'unknown-key'; readonly key: string; readonly known: readonly string[] }
  | { readonly code: 'missing-key'; readonly key: string }
  | { readonly code: 'unknown-kind'; readonly got: string; readonly known: readonly string[] }
  | { readonly code: 'bad-value'; readonly expected: string }
  | { readonly code: 'cannot-read'; readonly found: string; readonly expected: string }
  | { readonly code: 'unknown-unit'; readonly found: string }
  | { readonly code: 'unit-mismatch'; readonly wants: string; readonly got: string }
  | { readonly code: 'unknown-name'; readonly name: string; readonly known: readonly string[]; readonly what: string }
  | { readonly code: 'unknown-state'; readonly name: string; readonly state: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-function'; readonly name: string; readonly known: readonly string[] }
  | { readonly code: 'wrong-arguments'; readonly name: string; readonly expected: string }
  | { readonly code: 'unknown-part'; readonly name: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-terminal'; readonly name: string; readonly known: readonly string[] }
  | { readonly code: 'missing-terminal'; readonly terminal: string; readonly near?: string }
  | { readonly code: 'lone-node'; readonly node: string; readonly near?: string }
  | { readonly code: 'part-on-one-node'; readonly part: string; readonly node: string }
  | { readonly code: 'lead-not-on-part'; readonly lead: string; readonly on: string; readonly ends: readonly string[] }
  | { readonly code: 'impossible-fault'; readonly about: string; readonly becomes: string; readonly can: readonly string[] }
  | { readonly code: 'nothing-on-ground'; readonly fault: string }
  | { readonly code: 'absurd-value'; readonly shown: string; readonly least: string; readonly most: string; readonly facts?: string }
  | { readonly code: 'not-computable'; readonly why: ComputeProblem; readonly facts?: string }
  | { readonly code: 'fact-range'; readonly fact: string; readonly from: string; readonly usual: string; readonly to: string }
  | { readonly code: 'not-used'; readonly what: string; readonly name: string }
  | { readonly code: 'sign-loop'; readonly signs: readonly string[] }
  | { readonly code: 'floating-terminal'; readonly terminal: string; readonly island: readonly string[] }
  | { readonly code: 'source-shorted'; readonly source: string; readonly by: readonly string[]; readonly settings: string }
  | { readonly code: 'fuse-blows'; readonly fuse: string; readonly settings: string }
  | { readonly code: 'chatter'; readonly parts: readonly string[]; readonly settings: string; readonly fault?: string }
  | { readonly code: 'no-solution'; readonly node: string; readonly reason: string; readonly settings: string };

export type BenchCode = BenchTrouble['code'];

const CODES: Readonly<Record<BenchCode, true>> = {
  'not-readable': true,
  'too-big': true,
  'duplicate-name': true,
  'unknown-key': true,
  'missing-key': true,
  'unknown-kind': true,
  'bad-value': true,
  'cannot-read': true,
  'unknown-unit': true,
  'unit-mismatch': true,
  'unknown-name': true,
  'unknown-state': true,
  'unknown-function': true,
  'wrong-arguments': true,
  'unknown-part': true,
  'unknown-terminal': true,
  'missing-terminal': true,
  'lone-node': true,
  'part-on-one-node': true,
  'lead-not-on-part': true,
  'impossible-fault': true,
  'nothing-on-ground': true,
  'absurd-value': true,
  'not-computable': true,
  'fact-range': true,
  'not-used': true,
  'sign-loop': true,
  'floating-terminal': true,
  'source-shorted': true,
  'fuse-blows': true,
  chatter: true,
  'no-solution': true,
};

/** Every code that the reader of benches can give. */
export const BENCH_CODES = Object.keys(CODES);

export type BenchProblem = {
  readonly trouble: BenchTrouble;
  readonly severity: Severity;
  readonly path: Path;
  /** About the key rather than the value. */
  readonly key?: boolean;
  /** The piece of a text value that it is about. */
  readonly span?: readonly [number, number];
};

export const problemAt = (path: Path, trouble: BenchTrouble, more: Partial<Pick<BenchProblem, 'key' | 'span' | 'severity'>> = {}): BenchProblem => ({
  trouble,
  severity: 'error',
  path,
  ...more,
});

/** A formula's problem as a bench's; `offset` is where the formula's text starts in its field, `wants` what a name in it should be. */
export function formulaTrouble(problem: FormulaProblem, path: Path, text: string, offset: number, wants: string): BenchProblem {
  const span: readonly [number, number] = [problem.at[0] + offset, problem.at[1] + offset];
  const at = (trouble: BenchTrouble): BenchProblem => problemAt(path, trouble, { span });
  switch (problem.code) {
    case 'cannot-read':
      // A word straight after a number can only have been meant as its unit.
      if (/\d\s*$/.test(text.slice(0, problem.at[0])) && /^[\p{L}°µΩ%]/u.test(problem.found) && problem.expected === 'nothing more') {
        return at({ code: 'unknown-unit', found: problem.found });
      }
      return at({ code: 'cannot-read', found: problem.found, expected: problem.expected });
    case 'unit-not-known':
      return at({ code: 'unknown-unit', found: problem.found });
    case 'unknown-name':
      return at({ code: 'unknown-name', name: problem.name, known: problem.known, what: wants });
    case 'unknown-function':
      return at({ code: 'unknown-function', name: problem.name, known: problem.known });
    case 'wrong-arguments':
      return at({ code: 'wrong-arguments', name: problem.name, expected: problem.expected });
    case 'dimensions-differ':
      return at({ code: 'unit-mismatch', wants: problem.left, got: problem.right });
    case 'not-arithmetic':
      return at({ code: 'unit-mismatch', wants: `a quantity that “${problem.operator}” can work on`, got: problem.got });
    case 'not-computable':
      return at({ code: 'not-computable', why: problem.why });
  }
}
