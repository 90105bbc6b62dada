import { prepare } from '../../engine/bench/index.ts';
import { BenchWalk, type CaseEnd, walkCase } from '../../engine/proof/index.ts';
import { probeWords, stepLosses, type WalkOf } from '../../engine/suspects/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { afterWay, type CompiledEdition, compileEdition, type Edition, untouched } from '../../engine/walk/index.ts';

/** A step of a tree with what it loses, for a screen: minutes a call on average. */
export type CostlyStep = {
  readonly tree: string;
  readonly step: string;
  readonly title: string;
  readonly lost: number;
  readonly spent: number;
  /** The share of calls that come there. */
  readonly chance: number;
  /** What the best order would find out there, in words; absent where it would find out the same. */
  readonly instead?: string;
};

/** A tree's minutes beside the best order known, as plain data. */
export type MinutesReport = {
  readonly best: number;
  readonly bound: number;
  readonly method: 'exact' | 'rollout';
  /** Most lost first; only those that lose enough to be worth a look. */
  readonly costly: readonly CostlyStep[];
  /** What all the other steps lose together; below 0 where they win something back. */
  readonly rest: { readonly steps: number; readonly lost: number };
};

// Three seconds a call on average: less is not worth a change of a tree.
const WORTH_A_LOOK = 0.05;
const MOST_SHOWN = 10;

// More than a proof waits for: this runs by itself, and can be stopped.
const MOST_SETS = 40_000;

/** Puts an edition's tree beside the best order for its benches; `progress` hears of each bench. */
export function minutesReport(edition: Edition, progress: (done: number, of: number) => void): MinutesReport {
  const compiled = compileEdition(edition, TRADE_FUNCTIONS);
  const { best, steps, method } = stepLosses(compiled, longestWalks(compiled), { most: MOST_SETS, progress });
  const costly = steps.filter(({ lost }) => lost >= WORTH_A_LOOK).slice(0, MOST_SHOWN);
  const several = Object.keys(best.byBench).length > 1;
  const others = steps.filter((step) => !costly.includes(step));
  return {
    best: best.minutes,
    bound: best.bound,
    method: best.method === 'exact' && method === 'exact' ? 'exact' : 'rollout',
    costly: costly.flatMap(({ key, lost, spent, chance, instead }): readonly CostlyStep[] => {
      const found = compiled.steps.get(key);
      if (!found) return [];
      const { tree, step } = found;
      return [
        {
          tree: tree.name,
          step: step.id,
          title: step.title,
          lost,
          spent,
          chance,
          ...(instead && { instead: `${probeWords(instead.probe)}${several ? ` (${instead.bench.replaceAll('-', ' ')})` : ''}` }),
        },
      ];
    }),
    rest: { steps: others.length, lost: others.reduce((sum, { lost }) => sum + lost, 0) },
  };
}

/** How a tree walks a case; where a reading could go two ways, the longer one, as the proof counts. */
export function longestWalks(edition: CompiledEdition): WalkOf {
  const walks = new Map<string, BenchWalk>();
  return (name, fault, facts) => {
    const bench = edition.edition.benches[name];
    if (!bench) return [];
    const walk = walks.get(name) ?? new BenchWalk(edition, name, prepare(bench));
    walks.set(name, walk);
    const { ends } = walkCase(edition, walk, { fault, facts }, JSON.stringify([fault, facts]));
    const end = ends.reduce<CaseEnd | undefined>((most, one) => (one.minutes > (most?.minutes ?? -1) ? one : most), undefined);
    if (!end) return [];
    const last = end.path.at(-1);
    const circuit = last ? afterWay(last.step, last.circuit, last.on) : untouched(edition.asFound);
    return [
      ...end.path.map((at) => ({ key: at.step.key, circuit: at.circuit, on: at.on, minutes: at.step.step.minutes })),
      { key: end.at.key, circuit, on: undefined, minutes: end.at.step.minutes },
    ];
  };
}
