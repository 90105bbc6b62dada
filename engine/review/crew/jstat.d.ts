declare module 'jstat' {
  type Distribution<P extends readonly number[]> = { inv(p: number, ...parameters: P): number; cdf(x: number, ...parameters: P): number };
  const jStat: {
    readonly studentt: Distribution<[freedom: number]>;
    readonly beta: Distribution<[alpha: number, beta: number]>;
    gammaln(x: number): number;
  };
  export default jStat;
}
