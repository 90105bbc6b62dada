import type { Bench } from './bench.ts';
import { type BenchProblem, problemAt } from './bench-problem.ts';
import { blownFuses } from './blown-fuses.ts';
import type { Circuit } from './circuit.ts';
import { prepare } from './prepare.ts';
import { asFound, type Situation, withFault } from './situation.ts';
import type { Solution, Solved } from './solution.ts';
import { SolvedBench } from './solve.ts';

// A bench that never settles takes long to say so each time; so many times say enough.
const MOST_UNSOLVED = 8;

// Every combination of settings up to so many; above it, each state of each setting with the others as found.
const ALL_COMBINATIONS = 128;

const CARRIES: ReadonlySet<string | undefined> = new Set(['wire', 'contact', 'switch', 'limit', 'fuse']);

/** How a bench without other errors settles: healthy in every combination of its settings, and as found under each fault. */
export function checkSettling(bench: Bench): readonly BenchProblem[] {
  const solver = new SolvedBench(prepare(bench));
  const start = asFound(bench);
  const problems = new Map<string, BenchProblem>();
  const add = (key: string, problem: BenchProblem | undefined): void => {
    if (problem && !problems.has(key)) problems.set(key, problem);
  };
  let unsolved = 0;
  for (const settings of combinations(bench)) {
    if (unsolved >= MOST_UNSOLVED) break;
    const situation: Situation = { ...start, settings };
    const text = settingsText(settings, start.settings);
    const solution = solver.solve(situation);
    if (!solution.ok) {
      unsolved += 1;
      add(unsolvedKey(solution), unsolvedProblem(solution, bench, text));
      continue;
    }
    for (const { source, by } of shorts(solution)) {
      add(`shorted ${source}`, problemAt(['parts', source], { code: 'source-shorted', source, by, settings: text }, { key: true }));
    }
    for (const fuse of blownFuses(solution)) {
      add(`fuse ${fuse}`, problemAt(['parts', fuse], { code: 'fuse-blows', fuse, settings: text }, { key: true, severity: 'warning' }));
    }
  }
  for (const fault of Object.keys(bench.faults)) {
    if (unsolved >= MOST_UNSOLVED) break;
    const solution = solver.solve(withFault(start, fault));
    if (solution.ok || solution.reason !== 'chatter') continue;
    unsolved += 1;
    add(
      `chatter ${fault}`,
      problemAt(['faults', fault], { code: 'chatter', parts: solution.parts, settings: '', fault }, { key: true, severity: 'warning' }),
    );
  }
  return [...problems.values()];
}

const unsolvedKey = (solution: Solution & { readonly ok: false }): string =>
  solution.reason === 'chatter' ? `chatter ${solution.parts.join(' ')}` : solution.reason;

function unsolvedProblem(solution: Solution & { readonly ok: false }, bench: Bench, settings: string): BenchProblem | undefined {
  switch (solution.reason) {
    case 'chatter':
      return problemAt(['parts', solution.parts[0] ?? ''], { code: 'chatter', parts: solution.parts, settings }, { key: true });
    case 'no-solution': {
      const owner = Object.entries(bench.parts).find(([, part]) => 'between' in part && part.between.includes(solution.node));
      return problemAt(
        ['parts', ...(owner ? [owner[0]] : [])],
        { code: 'no-solution', node: solution.node, reason: solution.why, settings },
        { key: true },
      );
    }
    default:
      // Names and values were checked before anything was solved.
      return undefined;
  }
}

function combinations(bench: Bench): readonly Readonly<Record<string, string>>[] {
  const settings = Object.entries(bench.settings);
  const found = Object.fromEntries(settings.map(([name, states]) => [name, states[0] ?? '']));
  const count = settings.reduce((product, [, states]) => product * states.length, 1);
  if (count > ALL_COMBINATIONS)
    return [found, ...settings.flatMap(([name, states]) => states.slice(1).map((state) => ({ ...found, [name]: state })))];
  return settings.reduce<readonly Readonly<Record<string, string>>[]>(
    (all, [name, states]) => all.flatMap((rest) => states.map((state) => ({ ...rest, [name]: state }))),
    [{}],
  );
}

function settingsText(settings: Readonly<Record<string, string>>, found: Readonly<Record<string, string>>): string {
  return Object.entries(settings)
    .filter(([name, state]) => found[name] !== state)
    .map(([name, state]) => `${name} ${state}`)
    .join(', ');
}

/** Sources and secondaries whose two sides are joined by nothing but wires, fuses and closed contacts, with those parts. */
function shorts({ circuit, states }: Solved): readonly { readonly source: string; readonly by: readonly string[] }[] {
  const { parts } = circuit.prepared.index;
  return circuit.sources.flatMap(({ part, hot, back }) => {
    const path = conductorPath(circuit, states, hot, back);
    return path.length > 0 ? [{ source: parts[part]?.name ?? '', by: path.map((each) => parts[each]?.name ?? '') }] : [];
  });
}

function conductorPath(circuit: Circuit, states: Int8Array, from: number, to: number): readonly number[] {
  const { parts } = circuit.prepared.index;
  const cameBy = new Map<number, { readonly node: number; readonly part: number }>();
  const queue = [from];
  for (let node = queue.shift(); node !== undefined && !cameBy.has(to); node = queue.shift()) {
    for (const { a, b, part, on, switched } of circuit.branches) {
      if (part < 0 || on.dc === 0 || (a !== node && b !== node)) continue;
      const kind = parts[part]?.known.spec.kind;
      // A fuse that the short has blown was part of it.
      if (!CARRIES.has(kind) || (switched && states[part] === 0 && kind !== 'fuse')) continue;
      const other = a === node ? b : a;
      if (other === from || cameBy.has(other)) continue;
      cameBy.set(other, { node, part });
      queue.push(other);
    }
  }
  const path: number[] = [];
  for (let step = cameBy.get(to); step; step = step.node === from ? undefined : cameBy.get(step.node)) path.unshift(step.part);
  return path;
}
