/** Types of the quadratic program solver that blending is held against. Arrays count from 1. */
declare module 'quadprog' {
  /** min −dᵀb + ½bᵀDb with Aᵀb ≥ b0, the first meq rows equalities. */
  export function solveQP(
    Dmat: number[][],
    dvec: number[],
    Amat: number[][],
    bvec: number[],
    meq?: number,
  ): { solution: number[]; value: number[]; message: string };
}
