import type { z } from 'zod';
import type { Problem } from '../problem.ts';
import { type Bench, benchSchema } from './bench.ts';
import { type BenchProblem, problemAt } from './bench-problem.ts';
import { checkBench } from './check-bench.ts';
import { checkSettling } from './check-settling.ts';
import { schemaTroubles } from './schema-troubles.ts';
import { benchWords } from './wording.ts';
import { type Path, readYaml, type YamlSource } from './yaml-source.ts';

export type ReadBench = {
  /** Absent where the form is wrong; present with problems where only what it says is. */
  readonly bench?: Bench;
  readonly problems: readonly Problem[];
  /** Where things stand in the file; the top of it where the file cannot be read. */
  readonly places: YamlSource['placeOf'];
};

const MAX_LENGTH = 400_000;
const TOP = { line: 1, column: 1 } as const;

/** Reads a bench file. Never throws, whatever the text: what is wrong comes back as problems with place and fix. */
export function readBench(source: string, { file }: { readonly file: string }): ReadBench {
  const atTop = (problem: BenchProblem): ReadBench => ({ problems: [worded(problem, file, () => TOP)], places: () => TOP });
  if (source.length > MAX_LENGTH) {
    return atTop(problemAt([], { code: 'too-big', what: 'characters', got: source.length, most: MAX_LENGTH }));
  }
  const yaml = readYaml(source);
  if (!yaml.ok) {
    const problems = yaml.troubles.map(({ detail, place, duplicate }) =>
      worded(
        problemAt(
          [],
          duplicate === undefined ? { code: 'not-readable', detail } : { code: 'duplicate-name', name: duplicate, as: ['here', 'further up'] },
        ),
        file,
        () => place,
      ),
    );
    return { problems, places: () => TOP };
  }
  const places = yaml.source.placeOf;
  const parsed = benchSchema.safeParse(yaml.source.value);
  if (!parsed.success) {
    return { problems: schemaTroubles(parsed.error, yaml.source.value).map((problem) => worded(problem, file, places)), places };
  }
  const problems = [...checkedBench(parsed.data)];
  return { bench: parsed.data, problems: problems.map((problem) => worded(problem, file, places)), places };
}

/** What is wrong with a bench of the right form, and how it settles where nothing else is wrong. */
function checkedBench(bench: Bench): readonly BenchProblem[] {
  const problems = checkBench(bench);
  return problems.some(({ severity }) => severity === 'error') ? problems : [...problems, ...checkSettling(bench)];
}

/** The border for benches that are data already, as in an edition. */
export function parseBench(
  value: unknown,
): { readonly ok: true; readonly bench: Bench } | { readonly ok: false; readonly problems: readonly Problem[] } {
  const parsed: z.ZodSafeParseResult<Bench> = benchSchema.safeParse(value);
  const problems = parsed.success ? checkBench(parsed.data).filter(({ severity }) => severity === 'error') : schemaTroubles(parsed.error, value);
  if (parsed.success && problems.length === 0) return { ok: true, bench: parsed.data };
  return { ok: false, problems: problems.map((problem) => worded(problem, '', () => TOP)) };
}

function worded(problem: BenchProblem, file: string, placeOf: YamlSource['placeOf']): Problem {
  const { trouble, severity, path, key, span } = problem;
  const place = placeOf(path, { ...(key !== undefined && { key }), ...(span && { span }) });
  const part = partOf(path);
  return { severity, code: trouble.code, ...benchWords(trouble), file, ...place, ...(part !== undefined && { step: part }) };
}

// `step` of a problem names the part (or fault, sign, setting, fact) of a bench that it is about.
function partOf(path: Path): string | undefined {
  const [, name] = path;
  return typeof name === 'string' ? name : undefined;
}
