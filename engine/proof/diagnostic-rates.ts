/**
 * One fault as a diagnosis sees it: how often it is met, and among how many it is left; 0 where it is not told from health,
 * Infinity where it is, and is then not among those named.
 */
export type DiagnosedFault = { readonly weight: number; readonly group: number };

export type DiagnosticRates = {
  /** Fault detection rate: detected weight over all weight. */
  readonly detected: number;
  /** Fault isolation rates at ambiguity group 1, 2 and 3: isolated weight over detected weight. */
  readonly isolated1: number;
  readonly isolated2: number;
  readonly isolated3: number;
  /** Mean size of the ambiguity group over the weight that is left in one. */
  readonly meanGroup: number;
};

/**
 * Rates as IEEE Std 1522 defines them, each fault counted by its weight:
 * FDR = Σ_D λ / Σ λ; FIR_L = Σ_{D, group ≤ L} λ / Σ_D λ; mean group = Σ_D λ·group / Σ_D λ. 0 where nothing is detected.
 */
export function diagnosticRates(faults: readonly DiagnosedFault[]): DiagnosticRates {
  const sum = (of: readonly DiagnosedFault[], each: (f: DiagnosedFault) => number): number => of.reduce((total, f) => total + each(f), 0);
  const all = sum(faults, (f) => f.weight);
  const detected = faults.filter((f) => f.group > 0);
  const isolable = detected.filter((f) => Number.isFinite(f.group));
  const known = sum(detected, (f) => f.weight);
  const share = (part: number, whole: number): number => (whole > 0 ? part / whole : 0);
  const isolated = (most: number): number =>
    share(
      sum(
        detected.filter((f) => f.group <= most),
        (f) => f.weight,
      ),
      known,
    );
  return {
    detected: share(known, all),
    isolated1: isolated(1),
    isolated2: isolated(2),
    isolated3: isolated(3),
    meanGroup: share(
      sum(isolable, (f) => f.weight * f.group),
      sum(isolable, (f) => f.weight),
    ),
  };
}
