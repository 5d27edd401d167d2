/** The part of odex the tests use: it ships its sources, and those do not pass our compiler's settings. */
export class Solver {
  /** `n`: how many equations there are. */
  constructor(n: number);
  absoluteTolerance: number;
  relativeTolerance: number;
  /** Integrates y' = f(x, y) from `x0` to `xEnd`. */
  solve(
    f: (x: number, y: number[]) => number[],
    x0: number,
    y0: number[],
    xEnd: number,
  ): { readonly y: number[] };
}
