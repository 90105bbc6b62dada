import type { CompiledEdition } from '../walk/index.ts';
import { type DiagnosticRates, diagnosticRates } from './diagnostic-rates.ts';
import { type FaultProof, type ProofProgress, type ProvedFault, proveFaults } from './fault-proof.ts';
import { type MissReason, missReason } from './miss-reason.ts';
import { proveSafety, type SafetyFinding } from './safety-proof.ts';
import { type CaseEnd, caseTold } from './walk-case.ts';

/** A fault that the tree does not end right on, once for each bench, fault and end, with the walk that shows it. */
export type ProvedMiss = {
  readonly bench: string;
  /** Absent: nothing is wrong with the circuit, and the tree says that something is. */
  readonly fault: string | undefined;
  readonly end: CaseEnd;
  readonly path: readonly string[];
  readonly reason: MissReason | undefined;
  /** The case ends nowhere else. */
  readonly alone: boolean;
};

/** A step whose answer no fault of the benches, nor a sound circuit, ever changes. */
export type WastedStep = { readonly key: string; readonly on: string };

export type TreeProof = {
  readonly safety: readonly SafetyFinding[];
  /** Whether the search of paths reached its limit; then safety is not proved. */
  readonly cut: boolean;
  readonly faults: readonly ProvedFault[];
  readonly misses: readonly ProvedMiss[];
  readonly wasted: readonly WastedStep[];
  readonly rates: DiagnosticRates;
  /** Expected minutes to the finding over the fault weights, benches counted alike. */
  readonly expectedMinutes: number;
  readonly minutesByBench: Readonly<Record<string, number>>;
  /** Every bench's sound circuit walks to 'nothing wrong found'. */
  readonly healthy: boolean;
  readonly healthyByBench: Readonly<Record<string, boolean>>;
};

/** Everything that the proof has to say of an edition: its paths, its safety and its faults. */
export function proveTree(edition: CompiledEdition, progress?: ProofProgress): TreeProof {
  const safety = proveSafety(edition);
  const proof = proveFaults(edition, progress);
  const minutesByBench = Object.fromEntries(
    Object.keys(proof.healthy).map((bench) => [bench, weightedMinutes(proof.faults.filter((f) => f.bench === bench))]),
  );
  const benches = Object.values(minutesByBench);
  return {
    safety: safety.findings,
    cut: safety.cut,
    faults: proof.faults,
    misses: missesOf(edition, proof),
    wasted: wastedSteps(edition, proof),
    rates: diagnosticRates(proof.faults.map((fault) => ({ weight: fault.weight, group: groupOf(edition, fault) }))),
    expectedMinutes: benches.length === 0 ? 0 : benches.reduce((a, b) => a + b, 0) / benches.length,
    minutesByBench,
    healthy: Object.values(proof.healthy).every(Boolean),
    healthyByBench: proof.healthy,
  };
}

export function weightedMinutes(faults: readonly ProvedFault[]): number {
  const weight = faults.reduce((sum, fault) => sum + fault.weight, 0);
  return weight === 0 ? 0 : faults.reduce((sum, fault) => sum + fault.weight * fault.minutes, 0) / weight;
}

/** 0 where the tree cannot tell the fault from health; past every rate where it tells that something is wrong, and not what. */
function groupOf(edition: CompiledEdition, fault: ProvedFault): number {
  if (fault.right) return fault.group;
  const missed = Object.keys(fault.findings).some((key) => {
    const step = edition.steps.get(key)?.step;
    return step?.kind !== 'finding' || step.faults.length === 0;
  });
  return missed ? 0 : Number.POSITIVE_INFINITY;
}

function missesOf(edition: CompiledEdition, proof: FaultProof): readonly ProvedMiss[] {
  const kept = new Map<string, ProvedMiss>();
  for (const miss of proof.misses) {
    const key = `${miss.bench} ${miss.fault ?? ''} ${miss.end.at.key}`;
    const walk = proof.benches.get(miss.bench);
    const bench = edition.edition.benches[miss.bench];
    // A case that ends wrong whatever the meter shows tells more than one that ends wrong on one side of an edge.
    if (kept.get(key)?.alone === true || (kept.has(key) && !miss.alone) || !walk || !bench) continue;
    kept.set(key, {
      alone: miss.alone,
      bench: miss.bench,
      fault: miss.fault,
      end: miss.end,
      path: caseTold(miss.end),
      reason: missReason(walk, bench, miss),
    });
  }
  return [...kept.values()];
}

/** Readings and looks that always went one way. What proves a circuit dead, or tells a fact, is not there to divide faults. */
function wastedSteps(edition: CompiledEdition, proof: FaultProof): readonly WastedStep[] {
  return [...proof.taken].flatMap(([key, ways]) => {
    const step = edition.steps.get(key);
    const [only] = ways;
    if (!step || ways.size !== 1 || only === undefined || step.leadsTo.size < 2) return [];
    const at = step.step;
    const divides = at.kind === 'look' || (at.kind === 'reading' && at.proves === undefined && at.sets === undefined);
    return divides ? [{ key, on: only }] : [];
  });
}
