/** The few functions of jstat that tests hold ours against; the library ships no types. */
declare module 'jstat' {
  type Cdf = {
    cdf: (x: number, ...parameters: number[]) => number;
    inv: (p: number, ...parameters: number[]) => number;
  };
  const jstat: {
    readonly jStat: {
      readonly ibeta: (x: number, a: number, b: number) => number;
      readonly gammaln: (x: number) => number;
      readonly normal: Cdf;
      readonly studentt: Cdf;
      readonly centralF: Cdf;
      readonly chisquare: Cdf;
      readonly beta: Cdf;
    };
  };
  export default jstat;
}
