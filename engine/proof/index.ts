export { type BenchCase, BenchWalk, type Shown } from './bench-walk.ts';
export { type DiagnosedFault, type DiagnosticRates, diagnosticRates } from './diagnostic-rates.ts';
export { type FaultProof, type ProofProgress, type ProvedFault, proveFaults } from './fault-proof.ts';
export { type PathNode, type PathSearch, pathTold, searchPaths } from './path-search.ts';
export { type PlacesByTree, proofProblems, safetyProblems } from './proof-problems.ts';
export { type ProvedMiss, proveTree, type TreeProof, type WastedStep } from './prove-tree.ts';
export { proveSafety, type SafetyFinding, type SafetyProof } from './safety-proof.ts';
export { type CaseEnd, caseTold, walkCase } from './walk-case.ts';
