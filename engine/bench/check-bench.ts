import { conditionProblem, dimensionOf, type FormulaScope, readCondition, readFormula, type StateNames } from '../formula/index.ts';
import { DIMENSIONS, dimensionName, QUANTITY_KINDS } from '../quantity/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { type Bench, MOST } from './bench.ts';
import { type BenchIndex, indexBench } from './bench-index.ts';
import { type BenchProblem, formulaTrouble, problemAt } from './bench-problem.ts';
import { checkFaults } from './check-faults.ts';
import { checkTopology } from './check-topology.ts';
import { checkValues } from './check-values.ts';
import { CIRCUIT_FUNCTION_NAMES, CONDITION_FUNCTIONS } from './circuit-functions.ts';
import { callsIn, statesIn } from './condition-names.ts';
import { GROUND } from './names.ts';
import { nearest } from './nearest.ts';
import type { Path } from './yaml-source.ts';

/**
 * Everything that can be said about a bench of the right form without solving it: sizes, names, formulas, values at every corner of the facts,
 * faults, and the shape of the circuit. Later groups run only where the earlier ones found nothing that they build on.
 */
export function checkBench(bench: Bench): readonly BenchProblem[] {
  const sizes = checkSizes(bench);
  if (sizes.length > 0) return sizes;
  const index = indexBench(bench);
  const names = [...checkNames(index), ...checkNodes(index), ...checkFormulas(index), ...checkConditions(index)];
  const faults = checkFaults(index);
  const sound = (problems: readonly BenchProblem[]): boolean => problems.every(({ severity }) => severity !== 'error');
  const values = sound(names) ? checkValues(index) : [];
  const shape = sound(names) && sound(values) ? checkTopology(index) : [];
  return [...names, ...faults, ...values, ...shape];
}

function checkSizes(bench: Bench): readonly BenchProblem[] {
  const sizes = [
    ['parts', Object.keys(bench.parts).length, MOST.parts],
    ['faults', Object.keys(bench.faults).length, MOST.faults],
    ['settings', Object.keys(bench.settings).length, MOST.settings],
    ['facts', Object.keys(bench.facts).length, MOST.facts],
    ['signs', Object.keys(bench.signs).length, MOST.signs],
  ] as const;
  const problems = sizes.flatMap(([what, got, most]) => (got > most ? [problemAt([what], { code: 'too-big', what, got, most }, { key: true })] : []));
  if (problems.length > 0) return problems;
  const nodes = indexBench(bench).nodes.length;
  return nodes > MOST.nodes ? [problemAt(['parts'], { code: 'too-big', what: 'nodes', got: nodes, most: MOST.nodes }, { key: true })] : [];
}

function checkNames({ bench, parts, leads }: BenchIndex): readonly BenchProblem[] {
  const problems: BenchProblem[] = [];
  const used = new Map<string, string>();
  const claim = (name: string, as: string, path: Path): void => {
    const before = used.get(name);
    if (before === undefined) used.set(name, as);
    else problems.push(problemAt(path, { code: 'duplicate-name', name, as: [before, as] }, { key: true }));
  };
  for (const name of Object.keys(bench.settings)) claim(name, 'a setting', ['settings', name]);
  for (const name of Object.keys(bench.facts)) claim(name, 'a fact', ['facts', name]);
  for (const { name } of parts) claim(name, 'a part', ['parts', name]);
  for (const name of Object.keys(bench.signs)) claim(name, 'a sign', ['signs', name]);
  for (const [name, states] of Object.entries(bench.settings)) {
    const twice = states.findIndex((state, i) => states.indexOf(state) !== i);
    if (twice >= 0)
      problems.push(problemAt(['settings', name, twice], { code: 'duplicate-name', name: states[twice] ?? '', as: ['a state', 'a state'] }));
  }
  const nodes = new Set<string>([GROUND]);
  bench.terminals.forEach((name, i) => {
    if (nodes.has(name))
      problems.push(problemAt(['terminals', i], { code: 'duplicate-name', name, as: [name === GROUND ? 'earth' : 'a terminal', 'a terminal'] }));
    nodes.add(name);
  });
  for (const part of parts) for (const end of part.known.ends) nodes.add(end.node);
  for (const part of parts) {
    for (const lead of part.leads) {
      const path = ['parts', part.name, 'lead'];
      const ends = part.known.ends.map((end) => end.node);
      if (!ends.includes(lead.on))
        problems.push(problemAt(path, { code: 'lead-not-on-part', lead: lead.name, on: lead.on, ends: [...new Set(ends)] }));
      const first = leads.find(({ name }) => name === lead.name);
      if (nodes.has(lead.name)) problems.push(problemAt(path, { code: 'duplicate-name', name: lead.name, as: ['a node', 'a lead'] }));
      else if (first && first.on !== lead.on) {
        problems.push(problemAt(path, { code: 'duplicate-name', name: lead.name, as: [`a lead on ${first.on}`, `a lead on ${lead.on}`] }));
      }
    }
  }
  return problems;
}

function checkNodes({ bench, parts, leads, nodes }: BenchIndex): readonly BenchProblem[] {
  const problems: BenchProblem[] = [];
  const uses = new Map<string, { readonly path: Path; readonly part: string }[]>();
  for (const { name, known } of parts) {
    for (const end of known.ends) {
      const list = uses.get(end.node) ?? [];
      list.push({ path: ['parts', name, ...end.path], part: name });
      uses.set(end.node, list);
    }
    const [a, b, c, d] = known.ends;
    for (const [one, other] of [[a, b], known.spec.kind === 'transformer' ? [c, d] : []]) {
      if (one && other && one.node === other.node) {
        problems.push(problemAt(['parts', name, ...other.path], { code: 'part-on-one-node', part: name, node: one.node }));
      }
    }
  }
  const others = (name: string): readonly string[] =>
    [...bench.terminals, ...nodes].filter((node) => node !== name && !leads.some((lead) => lead.name === node));
  for (const [node, list] of uses) {
    const only = list[0];
    if (list.length !== 1 || !only || bench.terminals.includes(node) || node === GROUND) continue;
    const near = nearest(node, others(node));
    problems.push(problemAt(only.path, { code: 'lone-node', node, ...(near !== undefined && { near }) }));
  }
  bench.terminals.forEach((terminal, i) => {
    if (uses.has(terminal) || terminal === GROUND) return;
    const near = nearest(
      terminal,
      [...uses.keys()].filter((node) => !bench.terminals.includes(node)),
    );
    problems.push(problemAt(['terminals', i], { code: 'missing-terminal', terminal, ...(near !== undefined && { near }) }));
  });
  return problems;
}

function checkFormulas({ bench, parts, dimensions }: BenchIndex): readonly BenchProblem[] {
  const problems: BenchProblem[] = [];
  const scope: FormulaScope = { names: dimensions, functions: TRADE_FUNCTIONS };
  const check = (text: string, path: Path, wants: string, dimension: string, offset: number, inner = scope): void => {
    const formula = readFormula(text);
    if (!formula.ok) {
      problems.push(formulaTrouble(formula.problem, path, text, offset, 'fact'));
      return;
    }
    const got = dimensionOf(formula.value, inner);
    if (!got.ok) problems.push(formulaTrouble(got.problem, path, text, offset, 'fact'));
    else if (got.value !== dimension) {
      problems.push(problemAt(path, { code: 'unit-mismatch', wants, got: dimensionName(got.value) }, { span: [offset, offset + text.length] }));
    }
  };
  const constant: FormulaScope = { names: {}, functions: TRADE_FUNCTIONS };
  check(bench.frequency, ['frequency'], 'a frequency', DIMENSIONS.frequency, 0, constant);
  for (const [name, fact] of Object.entries(bench.facts)) {
    const { dimension } = QUANTITY_KINDS[fact.quantity];
    for (const field of ['usual', 'from', 'to'] as const)
      check(fact[field], ['facts', name, field], dimensionName(dimension), dimension, 0, constant);
  }
  for (const { name, known } of parts) {
    for (const value of known.values) {
      const dimension = DIMENSIONS[value.rule.dimension];
      check(value.text, ['parts', name, value.field], value.rule.dimension, dimension, value.offset);
    }
  }
  return problems;
}

function checkConditions(index: BenchIndex): readonly BenchProblem[] {
  const { bench, parts, states, dimensions, nodeNumber, partNumber } = index;
  const problems: BenchProblem[] = [];
  const scope: FormulaScope = { names: dimensions, functions: CONDITION_FUNCTIONS, states: Object.fromEntries(states) satisfies StateNames };
  const stateNames = [...states.keys()];
  const nodes = [...nodeNumber.keys()];
  const signUses = new Map<string, readonly string[]>();
  const check = (text: string, path: Path): readonly string[] => {
    const condition = readCondition(text);
    if (!condition.ok) {
      problems.push(formulaTrouble(condition.problem, path, text, 0, 'setting, part or sign'));
      return [];
    }
    const before = problems.length;
    for (const { name, state, at } of statesIn(condition.value)) {
      const known = states.get(name);
      const named: readonly [number, number] = [at[0], at[0] + name.length];
      const stated: readonly [number, number] = [at[1] - state.length, at[1]];
      if (!known) problems.push(problemAt(path, { code: 'unknown-name', name, known: stateNames, what: 'setting, part or sign' }, { span: named }));
      else if (!known.includes(state)) problems.push(problemAt(path, { code: 'unknown-state', name, state, known }, { span: stated }));
    }
    for (const call of callsIn(condition.value)) {
      const onNodes = call.name === 'volts' || call.name === 'dc-volts';
      if (!CIRCUIT_FUNCTION_NAMES.some((name) => name === call.name)) continue;
      for (const word of call.words) {
        if (onNodes && !nodeNumber.has(word.text))
          problems.push(problemAt(path, { code: 'unknown-terminal', name: word.text, known: nodes }, { span: word.at }));
        if (!onNodes && !partNumber.has(word.text)) {
          problems.push(problemAt(path, { code: 'unknown-part', name: word.text, known: [...partNumber.keys()] }, { span: word.at }));
        }
      }
    }
    if (problems.length === before) {
      const problem = conditionProblem(condition.value, scope);
      if (problem) problems.push(formulaTrouble(problem, path, text, 0, 'fact'));
    }
    return statesIn(condition.value).map(({ name }) => name);
  };
  for (const { name, known } of parts) for (const { path, text } of known.conditions) check(text, ['parts', name, ...path]);
  for (const [name, text] of Object.entries(bench.signs))
    signUses.set(
      name,
      check(text, ['signs', name]).filter((used) => Object.hasOwn(bench.signs, used)),
    );
  for (const { name, known } of parts) {
    if (known.spec.kind === 'sequence') checkSequence(name, known.spec.stages, problems);
    if ('safety' in known.spec && known.spec.safety !== undefined) {
      const guards = typeof known.spec.safety === 'string' ? [known.spec.safety] : known.spec.safety;
      const known_ = [...partNumber.keys(), ...Object.keys(bench.signs)];
      for (const guarded of guards) {
        if (!known_.includes(guarded)) problems.push(problemAt(['parts', name, 'safety'], { code: 'unknown-part', name: guarded, known: known_ }));
      }
    }
  }
  for (const [group, what] of [
    ['settings', 'setting'],
    ['facts', 'fact'],
  ] as const) {
    for (const name of Object.keys(bench[group])) {
      if (!mentioned(bench, name)) problems.push(problemAt([group, name], { code: 'not-used', what, name }, { key: true, severity: 'warning' }));
    }
  }
  const loop = loopIn(signUses);
  if (loop.length > 0) problems.push(problemAt(['signs', loop[0] ?? ''], { code: 'sign-loop', signs: loop }, { key: true }));
  return problems;
}

// A name stands in some text of a part, sign or fault, as a word of its own.
function mentioned(bench: Bench, name: string): boolean {
  const word = new RegExp(`(?<![a-z0-9-])${name}(?![a-z0-9-])`);
  const within = (value: unknown): boolean =>
    typeof value === 'string' ? word.test(value) : typeof value === 'object' && value !== null && Object.values(value).some(within);
  return within(bench.parts) || within(bench.signs) || within(bench.faults);
}

function checkSequence(name: string, stages: Readonly<Record<string, Readonly<Record<string, string>>>>, problems: BenchProblem[]): void {
  const known = Object.keys(stages);
  if (known.length === 0) problems.push(problemAt(['parts', name, 'stages'], { code: 'bad-value', expected: 'at least one stage' }));
  for (const [stage, exits] of Object.entries(stages)) {
    for (const to of Object.keys(exits)) {
      if (!known.includes(to))
        problems.push(problemAt(['parts', name, 'stages', stage, to], { code: 'unknown-state', name, state: to, known }, { key: true }));
    }
  }
}

/** Signs that are defined by each other, if any. */
function loopIn(uses: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const done = new Set<string>();
  const visit = (name: string, trail: readonly string[]): readonly string[] => {
    const at = trail.indexOf(name);
    if (at >= 0) return trail.slice(at);
    if (done.has(name)) return [];
    for (const used of uses.get(name) ?? []) {
      const loop = visit(used, [...trail, name]);
      if (loop.length > 0) return loop;
    }
    done.add(name);
    return [];
  };
  for (const name of uses.keys()) {
    const loop = visit(name, []);
    if (loop.length > 0) return loop;
  }
  return [];
}
