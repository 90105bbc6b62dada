import { readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { prepare, signsOf } from '../../../engine/bench/index.ts';
import { TreeFolder } from '../../../engine/cli/tree-folder.ts';
import { BenchWalk } from '../../../engine/proof/index.ts';
import { buildEdition, type CircuitState, type CompiledStep, circuitKey, type WalkableEdition, walkableEdition } from '../../../engine/walk/index.ts';

const TREES = fileURLToPath(new URL('../../../trees', import.meta.url));

/** What a step shows on a circuit: what is typed, or the way that is seen or told; undefined where the bench cannot say. */
export type ShownThere = { readonly typed?: string; readonly on?: string } | undefined;

/** One tree of the shelf with one of its benches, for calls: what is shown is kept for every fault, so that walks share it. */
export class CallGround {
  private readonly shown = new Map<string, ShownThere>();
  private readonly walk: BenchWalk;
  readonly faults: readonly { readonly fault: string; readonly weight: number }[];

  constructor(
    readonly edition: WalkableEdition,
    readonly bench: string,
  ) {
    const found = edition.compiled.edition.benches[bench];
    if (!found) throw new Error(`no bench ${bench}`);
    this.walk = new BenchWalk(edition.compiled, bench, prepare(found));
    this.faults = Object.entries(found.faults).map(([fault, { weight }]) => ({ fault, weight }));
  }

  /** In a house where every fact is as usual. */
  at(step: CompiledStep, fault: string | undefined, circuit: CircuitState): ShownThere {
    const key = `${fault ?? ''} ${step.key} ${circuitKey(circuit)}`;
    if (!this.shown.has(key)) this.shown.set(key, this.show(step, fault, circuit));
    return this.shown.get(key);
  }

  private show(step: CompiledStep, fault: string | undefined, circuit: CircuitState): ShownThere {
    const at = { fault, facts: {} };
    if (step.step.kind === 'look') {
      const solved = this.walk.solved(at, circuit);
      const seen = step.step.sign === undefined || !solved ? undefined : signsOf(solved)[step.step.sign];
      const [first, second] = step.leadsTo.keys();
      const on = seen === true ? first : seen === false ? second : undefined;
      return on === undefined ? undefined : { on };
    }
    const { reading, untold, ons } = this.walk.shown(step, at, `${this.bench} ${fault ?? ''}`, circuit);
    if (step.step.kind === 'reading') return reading && untold === undefined ? { typed: reading.shown } : undefined;
    return ons[0] === undefined ? undefined : { on: ons[0] };
  }
}

/** Trees of the shelf, each with each of its benches; all of them where none is named. */
export function shelfGrounds(names: readonly string[] = []): readonly CallGround[] {
  const folder = new TreeFolder(TREES);
  return readdirSync(TREES)
    .filter((name) => name.endsWith('.tree.mdx') && (names.length === 0 || names.includes(basename(name, '.tree.mdx'))))
    .sort()
    .flatMap((name) => {
      const tree = basename(name, '.tree.mdx');
      const edition = buildEdition(tree, folder.sources(tree));
      if (!edition.ok) throw new Error(`${join(TREES, name)}: ${JSON.stringify(edition.problem)}`);
      const walkable = walkableEdition(edition.value);
      return walkable.compiled.root.benches.map((bench) => new CallGround(walkable, bench));
    });
}
