import type { z } from 'zod';
import { benchSchema } from './bench.ts';
import { type BenchProblem, problemAt } from './bench-problem.ts';
import { PART_KIND_NAMES } from './parts/part-kinds.ts';
import type { Path } from './yaml-source.ts';

type Issue = z.core.$ZodIssue;

/** The schema's issues as bench problems; each place is told once. */
export function schemaTroubles(error: z.ZodError, value: unknown): readonly BenchProblem[] {
  const told = new Set<string>();
  return error.issues
    .flatMap((issue) => troublesOf(issue, value))
    .filter((problem) => {
      const key = JSON.stringify([problem.path, problem.trouble.code]);
      if (told.has(key)) return false;
      told.add(key);
      return true;
    });
}

function at(value: unknown, path: Path): unknown {
  let here: unknown = value;
  for (const step of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) return undefined;
    here = Reflect.get(here, step);
  }
  return here;
}

const pathOf = (issue: Issue): Path => issue.path.filter((step) => typeof step !== 'symbol');

function troublesOf(issue: Issue, value: unknown): readonly BenchProblem[] {
  const path = pathOf(issue);
  const got = at(value, path);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => problemAt([...path, key], { code: 'unknown-key', key, known: keysAt(value, path) }, { key: true }));
  }
  const last = path.at(-1);
  if (got === undefined && typeof last === 'string') return [problemAt(path, { code: 'missing-key', key: last })];
  if (issue.code === 'invalid_union' && issue.discriminator === 'kind') {
    if (typeof got === 'string') return [problemAt(path, { code: 'unknown-kind', got, known: PART_KIND_NAMES })];
    return [problemAt(path, { code: 'bad-value', expected: 'a part with a kind, such as “{ kind: contact, … }”' })];
  }
  if (issue.code === 'invalid_key')
    return [problemAt(path, { code: 'bad-value', expected: 'a name in small letters, digits and hyphens, such as “heat-call”' }, { key: true })];
  return [problemAt(path, { code: 'bad-value', expected: expectedWords(issue, path) })];
}

// What stands at a path whose value does not fit, in a tech's words.
function expectedWords(issue: Issue, path: Path): string {
  const last = path.findLast((step) => typeof step === 'string') ?? '';
  const inList = typeof path.at(-1) === 'number';
  if (last === 'between' || last === 'primary' || last === 'secondary')
    return inList ? 'the name of a node, such as “R”' : 'two nodes, such as “[R, C]”';
  if (last === 'terminals') return inList ? 'the name of a terminal, such as “K1”' : 'a list of terminals, such as “[R, C, K1]”';
  if (last === 'lead') return 'a lead and its terminal, such as “coil-hot on V1”';
  if (path[0] === 'settings' && path.length >= 2)
    return inList ? 'a state, such as “on”' : 'two states or more, the first as found, such as “[on, off]”';
  switch (issue.code) {
    case 'invalid_value':
      return `one of ${issue.values.map((value) => `“${String(value)}”`).join(', ')}`;
    case 'too_small':
    case 'too_big': {
      const limit = issue.code === 'too_small' ? `at least ${issue.minimum}` : `at most ${issue.maximum}`;
      return issue.origin === 'number'
        ? `a number of ${issue.code === 'too_small' && issue.inclusive === false ? `more than ${issue.minimum}` : limit}`
        : `${limit} long`;
    }
    case 'invalid_type':
      return TYPES[issue.expected] ?? 'something else';
    case 'invalid_format':
      return 'a name in small letters, digits and hyphens, such as “valve-coil”';
    default:
      return 'a text with its unit, such as “24 V”';
  }
}

const TYPES: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  object: 'a list of names, each with what belongs to it',
  record: 'a list of names, each with what belongs to it',
  array: 'a list',
  tuple: 'a list of two',
};

/** The keys that may stand at a path, from the schema itself. */
function keysAt(value: unknown, path: Path): readonly string[] {
  if (path.length === 0) return Object.keys(benchSchema.shape);
  if (path[0] === 'parts' && path.length === 2) {
    const kind = at(value, [...path, 'kind']);
    const option = benchSchema.shape.parts.valueType.options.find((candidate) => candidate.shape.kind.value === kind);
    return option ? Object.keys(option.shape) : ['kind'];
  }
  if (path[0] === 'facts') return ['quantity', 'ask', 'usual', 'from', 'to'];
  if (path[0] === 'faults') return ['part', 'becomes', 'weight', 'prior', 'says'];
  return [];
}
