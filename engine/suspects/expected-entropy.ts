/**
 * Expected bits of entropy left over candidates after one reading: Σ_v P(v) H(candidates | v). `likelihood[v][candidate]` is the chance of outcome v with that
 * candidate; a candidate that predicts nothing gives every outcome its share. Priors need not sum to 1.
 */
export function expectedEntropy(priors: ArrayLike<number>, likelihood: readonly ArrayLike<number>[]): number {
  const whole = Array.from(priors).reduce((sum, prior) => sum + prior, 0);
  if (!(whole > 0)) return 0;
  return likelihood.reduce((bits, row) => {
    const joint = Array.from(priors, (prior, i) => ((row[i] ?? 0) * prior) / whole);
    const chance = joint.reduce((sum, part) => sum + part, 0);
    return bits - joint.reduce((sum, part) => sum + (part > 0 ? part * Math.log2(part / chance) : 0), 0);
  }, 0);
}
