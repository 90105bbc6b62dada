import { prepare } from '../../engine/bench/index.ts';
import { BenchWalk } from '../../engine/proof/index.ts';
import { readTypedValue, typedValueWords } from '../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { isChoice, jumperKey } from '../../engine/tree/index.ts';
import {
  answersOf,
  beginWalk,
  type CompiledEdition,
  compileEdition,
  type Edition,
  factUnit,
  viewOf,
  type Walk,
  type WalkableEdition,
  walkMachine,
} from '../../engine/walk/index.ts';
import type { TryCase } from './bench-shows.ts';
import { walkTo } from './reach-step.ts';
import { askedStep, caseNow, goesRound, moved, showsNow, type TryRun, took, visitOf } from './try-run.ts';
import type { RefusedMove, TryBegin, TryEnd, TryMove, TryOffer, TrySetup, TryStart, TryState } from './try-state.ts';

type Begun = { readonly run: TryRun; readonly start: TryStart; readonly base: TryCase; readonly factProblems: Readonly<Record<string, string>> };

/** A tree as it is written now, ready to be tried: on each bench it names, with each fault, from each step. */
export class TriedTree {
  readonly #compiled: CompiledEdition;
  readonly #walkable = new Map<string, WalkableEdition>();
  readonly #benches = new Map<string, BenchWalk>();
  readonly #begun = new Map<string, Begun>();
  #last: { readonly key: string; readonly moves: readonly TryMove[]; readonly run: TryRun } | undefined;

  constructor(readonly edition: Edition) {
    this.#compiled = compileEdition(edition, TRADE_FUNCTIONS);
  }

  /** What there is to choose from. */
  offer(): TryOffer {
    const { edition, root, facts, wiring, steps } = this.#compiled;
    const trees = Object.values(edition.trees);
    const benches = Object.fromEntries(root.benches.flatMap((name) => (edition.benches[name] ? [[name, edition.benches[name]]] : [])));
    const settings: Record<string, readonly string[]> = {};
    for (const each of [...trees.map((tree) => tree.settings), ...Object.values(edition.benches).map((bench) => bench.settings)])
      for (const [setting, states] of Object.entries(each)) settings[setting] ??= states;
    const jumpers = new Map<string, readonly [string, string]>();
    const leads = new Set<string>();
    for (const step of trees.flatMap((tree) => tree.steps)) {
      for (const action of step.kind === 'act' ? step.does : []) {
        if (action.do === 'jumper') jumpers.set(jumperKey(action.from, action.to), [action.from, action.to]);
        if (action.do === 'lift') leads.add(action.lead);
      }
    }
    return {
      root: root.name,
      title: root.title,
      benches,
      facts: Object.fromEntries([...facts].map(([name, { spec }]) => [name, spec])),
      settings,
      jumpers: [...jumpers.values()],
      leads: [...leads],
      titles: Object.fromEntries([...steps].map(([key, { step }]) => [key, step.title])),
      ...(wiring !== undefined && { wiring }),
    };
  }

  /** How the tree stands after these moves, as far as they can be taken. */
  state(setup: TrySetup, moves: readonly TryMove[]): TryState {
    const key = JSON.stringify(setup);
    const begun = this.#begun.get(key) ?? this.#begin(setup);
    this.#begun.set(key, begun);
    const known = this.#last?.key === key && startsWith(moves, this.#last.moves) ? this.#last : { run: begun.run, moves: [] };
    let { run } = known;
    const taken: TryMove[] = [...known.moves];
    let refused: RefusedMove | undefined;
    let dropped = 0;
    for (let at = taken.length; at < moves.length; at += 1) {
      const move = moves[at];
      if (!move) break;
      const result = moved(run, move, setup, begun.base);
      run = result.run;
      taken.push(...result.taken);
      if (result.refused) {
        refused = result.refused;
        dropped = moves.length - at - 1;
        break;
      }
    }
    this.#last = { key, moves: taken, run };
    return this.#show(run, begun, setup, { taken, dropped, ...(refused && { refused }) });
  }

  #show(run: TryRun, { start, base, factProblems }: Begun, setup: TrySetup, told: Pick<TryState, 'taken' | 'dropped' | 'refused'>): TryState {
    const { walk } = run;
    const view = viewOf(walk);
    const now = caseNow(setup, base, walk);
    const asked = askedStep(walk, view) ?? this.#compiled.steps.get(this.#compiled.start);
    if (!asked) throw new RangeError('a tree without a step');
    const { steps } = this.#compiled;
    const { circuit } = walk.snapshot.context;
    const solved = now.walk?.solved(now.at, circuit);
    const open = walk.snapshot.context.at === undefined ? undefined : steps.get(walk.snapshot.context.at);
    const minutes = view.path.reduce((sum, { tree, step }) => sum + (steps.get(`${tree}/${step}`)?.step.minutes ?? 0), 0);
    const end = endOf(run, setup, open?.step);
    const cannot = asked.cannot === undefined ? undefined : steps.get(asked.cannot)?.step.title;
    return {
      ...told,
      start,
      phase: view.phase,
      at: { tree: asked.tree.name, treeTitle: asked.tree.title, step: asked.step.id },
      step: asked.step,
      unmet: view.unmet,
      shows: showsNow(run, view, now),
      answers: answersOf(walk),
      path: view.path.map((entry) => {
        const gauge = steps.get(`${entry.tree}/${entry.step}`)?.gauge?.step;
        return { ...entry, ...(gauge && { takes: gauge.takes }), ...(gauge?.unit !== undefined && { unit: gauge.unit }) };
      }),
      minutes,
      putBack: view.putBack,
      facts: view.facts,
      factProblems,
      ...(view.scale && { scale: view.scale }),
      ...(view.verdict && { verdict: view.verdict }),
      ...(cannot !== undefined && { cannot }),
      ...(solved && { situation: solved.situation }),
      ...(now.walk && !solved && { unsolved: 'The circuit does not come to rest with this done to it.' }),
      ...(end && { end }),
      ...(view.outcome && { outcome: view.outcome }),
    };
  }

  #begin(setup: TrySetup): Begun {
    const { facts, factProblems } = this.#house(setup);
    const base: TryCase = { walk: this.#bench(setup.bench), at: { fault: setup.fault, facts }, setup };
    const problems: Record<string, string> = { ...factProblems };
    const start = this.#opened(this.#compiled.start, setup, problems);
    const { from } = setup;
    if (from === undefined || from === this.#compiled.start || !this.#compiled.steps.has(from))
      return { run: start, start: { how: 'beginning' }, base, factProblems: problems };
    const reached = base.walk && walkTo(start, from, base);
    if (reached) return { run: reached, start: { how: 'followed', steps: reached.walk.snapshot.context.path.length }, base, factProblems: problems };
    const there = this.#opened(from, setup, problems);
    const walk = withCircuit(there.walk, setup.begin);
    return { run: { walk, visits: [visitOf(walk) ?? ''] }, start: { how: 'set' }, base, factProblems: problems };
  }

  /** A walk that stands on a step, with everything that is told and read before it. */
  #opened(start: string, setup: TrySetup, problems: Record<string, string>): TryRun {
    const walkable = this.#walkableFrom(start);
    let run: TryRun = { walk: beginWalk(walkable, 'try'), visits: [] };
    const opened = took(run, { type: 'opened' });
    if (opened.ok) run = opened.run;
    const wired = this.#compiled.wiring !== undefined && setup.bench !== undefined ? { [this.#compiled.wiring]: setup.bench } : {};
    for (const [fact, typed] of Object.entries({ ...setup.facts, ...wired })) {
      if (!this.#compiled.facts.has(fact)) continue;
      const told = took(run, { type: 'told', fact, typed });
      if (told.ok) run = told.run;
      else if (fact !== this.#compiled.wiring) problems[fact] = `${told.refused.message} ${told.refused.fix}`;
    }
    const begun = took(run, { type: 'went-on' });
    if (!begun.ok) throw new RangeError(begun.refused.message);
    return begun.run;
  }

  #walkableFrom(start: string): WalkableEdition {
    const known = this.#walkable.get(start);
    if (known) return known;
    const compiled: CompiledEdition = { ...this.#compiled, start };
    // Nothing of a try is kept, so the edition goes without its hash.
    const made: WalkableEdition = { hash: '', compiled, machine: walkMachine(compiled) };
    this.#walkable.set(start, made);
    return made;
  }

  #bench(name: string | undefined): BenchWalk | undefined {
    const bench = name === undefined ? undefined : this.edition.benches[name];
    if (name === undefined || !bench) return undefined;
    const walk = this.#benches.get(name) ?? new BenchWalk(this.#compiled, name, prepare(bench));
    this.#benches.set(name, walk);
    return walk;
  }

  /** The bench's own facts where they are not as usual, SI. */
  #house({ bench: name, facts }: TrySetup): { readonly facts: Readonly<Record<string, number>>; readonly factProblems: Record<string, string> } {
    const bench = name === undefined ? undefined : this.edition.benches[name];
    const known: Record<string, number> = {};
    const factProblems: Record<string, string> = {};
    for (const [fact, typed] of Object.entries(facts)) {
      const spec = bench?.facts[fact] ?? this.#compiled.facts.get(fact)?.spec;
      if (!spec || !('quantity' in spec) || isChoice(spec)) continue;
      const read = readTypedValue(typed, spec.quantity, factUnit(spec));
      if (!read.ok) {
        const words = typedValueWords(read.problem);
        factProblems[fact] = `${words.message} ${words.fix}`;
      } else if (read.value.si !== 'open') known[fact] = read.value.si;
    }
    // A fact that the bench does not have is the tree's alone.
    const ofBench = Object.fromEntries(Object.entries(known).filter(([fact]) => bench !== undefined && Object.hasOwn(bench.facts, fact)));
    return { facts: ofBench, factProblems };
  }
}

function startsWith(moves: readonly TryMove[], start: readonly TryMove[]): boolean {
  return start.length <= moves.length && JSON.stringify(moves.slice(0, start.length)) === JSON.stringify(start);
}

/** A walk on a circuit that somebody set up before it began. */
function withCircuit(walk: Walk, { settings, jumpers, lifted, dead }: TryBegin): Walk {
  const { snapshot } = walk;
  const { context } = snapshot;
  const step = context.at === undefined ? undefined : walk.edition.compiled.steps.get(context.at)?.step;
  const points = step?.kind === 'reading' ? step.across : undefined;
  const circuit = {
    ...context.circuit,
    settings: { ...context.circuit.settings, ...settings },
    jumpers: [...jumpers],
    lifted: [...lifted],
    dead: dead && points ? [{ points, meterBefore: true, meterAfter: true }] : [],
  };
  return { ...walk, snapshot: { ...snapshot, context: { ...context, circuit } } };
}

function endOf(run: TryRun, { fault }: TrySetup, step: TryState['step'] | undefined): TryEnd | undefined {
  const { phase } = viewOf(run.walk);
  if (step?.kind === 'finding' && phase !== 'cautions') {
    const isRight = fault === undefined ? step.faults.length === 0 : step.faults.includes(fault);
    return { how: isRight ? 'right' : 'wrong', names: step.faults };
  }
  if (step?.kind === 'handoff') return { how: 'handed-off', to: step.to };
  return goesRound(run) ? { how: 'round' } : undefined;
}
