/** The step of the simulated plant, and shares of a first-order lag over one step. */

/** One step of the plant, s. */
export const STEP_S = 0.1;
/** Steps in a second. */
export const STEPS_PER_S = 10;

/** Share of the way to its target a first-order lag of tauS goes in one step; 1 for no lag. */
export const lagShare = (tauS: number): number => (tauS <= 0 ? 1 : 1 - Math.exp(-STEP_S / tauS));

/** Moves a value towards a target by a share of the gap, and lands on it once within `near`. */
export const approach = (value: number, target: number, share: number, near: number): number => {
  const gap = target - value;
  return gap < near && gap > -near ? target : value + gap * share;
};

/** Moves a value towards a target by at most `stride`. */
export const travel = (value: number, target: number, stride: number): number => {
  const gap = target - value;
  if (gap > stride) return value + stride;
  if (gap < -stride) return value - stride;
  return target;
};
