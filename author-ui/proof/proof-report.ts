import { type Bench, factCorners, prepare } from '../../engine/bench/index.ts';
import type { Problem } from '../../engine/problem.ts';
import {
  type BenchCase,
  BenchWalk,
  type CaseEnd,
  type DiagnosticRates,
  type PlacesByTree,
  type ProofProgress,
  type ProvedFault,
  proofProblems,
  proveTree,
  safetyProblems,
  walkCase,
} from '../../engine/proof/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { type CompiledEdition, compileEdition, type Edition } from '../../engine/walk/index.ts';
import { type Replay, replayOf } from './replay.ts';

/** A step that some case ended on: a finding, a handoff, or the step where it goes round for ever. */
export type ProofEnd = {
  readonly key: string;
  readonly tree: string;
  readonly step: string;
  readonly title: string;
  readonly kind: 'finding' | 'handoff' | 'endless';
  /** Faults that the finding names; none for ‘nothing wrong found’. */
  readonly names: readonly string[];
};

/** An end that is not right, with the walk that shows it. */
export type ReportedMiss = {
  readonly bench: string;
  readonly fault: string | undefined;
  readonly end: string;
  readonly path: readonly string[];
  readonly reason: 'fooled-by-stray-voltage' | 'fooled-by-parallel-path' | 'too-close-to-call' | undefined;
  readonly alone: boolean;
};

export type HealthyRow = {
  readonly bench: string;
  readonly right: boolean;
  readonly cases: number;
  readonly findings: Readonly<Record<string, number>>;
};

/** A proof as plain data, for a screen in another thread. */
export type ProofReport = {
  readonly title: string;
  readonly ends: readonly ProofEnd[];
  readonly faults: readonly ProvedFault[];
  readonly healthy: readonly HealthyRow[];
  readonly misses: readonly ReportedMiss[];
  /** What can hurt someone, as problems of the files. */
  readonly safety: readonly Problem[];
  /** Everything that is wrong: of the files, of safety and of the faults. */
  readonly problems: readonly Problem[];
  readonly rates: DiagnosticRates;
  readonly expectedMinutes: number;
  readonly minutesByBench: Readonly<Record<string, number>>;
  /** The search of paths reached its limit; then safety is not proved. */
  readonly cut: boolean;
  readonly benches: Readonly<Record<string, Bench>>;
};

/** A proof that can still be asked to walk one case again. */
export class DeskProof {
  readonly #edition: CompiledEdition;
  readonly #walks = new Map<string, BenchWalk>();

  constructor(edition: Edition) {
    this.#edition = compileEdition(edition, TRADE_FUNCTIONS);
  }

  /** Proves everything. `own`: what the files' own checks said. */
  report(places: PlacesByTree, own: readonly Problem[], progress?: ProofProgress): ProofReport {
    const edition = this.#edition;
    const proof = proveTree(edition, progress);
    const safety = safetyProblems(proof.safety, places);
    const healthy = Object.keys(proof.healthyByBench).map((bench) => this.#healthyRow(bench, proof.healthyByBench[bench] ?? false));
    const reached = new Set([...proof.faults, ...healthy].flatMap(({ findings }) => Object.keys(findings)));
    const endless = new Set(proof.misses.filter(({ end }) => end.endless).map(({ end }) => end.at.key));
    return {
      title: edition.root.title,
      ends: [...edition.steps.keys()].filter((key) => reached.has(key)).flatMap((key) => this.#endAt(key, endless.has(key))),
      faults: proof.faults,
      healthy,
      misses: proof.misses.map(({ bench, fault, end, path, reason, alone }) => ({
        bench,
        fault,
        end: end.at.key,
        path,
        reason: reason?.code,
        alone,
      })),
      safety,
      // The paths of a tree are checked with its text already: the same finding is told once.
      problems: once([...own, ...proofProblems(edition, proof, places)]),
      rates: proof.rates,
      expectedMinutes: proof.expectedMinutes,
      minutesByBench: proof.minutesByBench,
      cut: proof.cut,
      benches: edition.edition.benches,
    };
  }

  /** The first case of this fault (or of the sound circuit) that ends on this step, reading by reading; undefined where none does. */
  replay(bench: string, fault: string | undefined, endKey: string): Replay | undefined {
    for (const { at, ends } of this.#cases(bench, fault)) {
      const end = ends.find((candidate) => candidate.at.key === endKey);
      if (end) return replayOf(bench, at, end);
    }
    return undefined;
  }

  #healthyRow(bench: string, right: boolean): HealthyRow {
    const findings: Record<string, number> = {};
    const cases = [...this.#cases(bench, undefined)];
    for (const { ends } of cases) for (const { at } of ends) findings[at.key] = (findings[at.key] ?? 0) + 1;
    return { bench, right, cases: cases.length, findings };
  }

  *#cases(name: string, fault: string | undefined): Generator<{ readonly at: BenchCase; readonly ends: readonly CaseEnd[] }> {
    const bench = this.#edition.edition.benches[name];
    if (!bench) return;
    const walk = this.#walks.get(name) ?? new BenchWalk(this.#edition, name, prepare(bench));
    this.#walks.set(name, walk);
    for (const [corner, facts] of factCorners(bench).entries()) {
      const at: BenchCase = { fault, facts };
      yield { at, ends: walkCase(this.#edition, walk, at, `${name} ${fault ?? ''} ${corner}`).ends };
    }
  }

  #endAt(key: string, endless: boolean): readonly ProofEnd[] {
    const found = this.#edition.steps.get(key);
    if (!found) return [];
    const { step, tree } = found;
    const kind = endless || (step.kind !== 'finding' && step.kind !== 'handoff') ? 'endless' : step.kind;
    return [{ key, tree: tree.name, step: step.id, title: step.title, kind, names: step.kind === 'finding' ? step.faults : [] }];
  }
}

function once(problems: readonly Problem[]): readonly Problem[] {
  const seen = new Map(problems.map((problem) => [`${problem.file} ${problem.line} ${problem.column} ${problem.code} ${problem.message}`, problem]));
  return [...seen.values()];
}
