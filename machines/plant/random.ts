/**
 * The plant's seeded random numbers: one 32-bit integer of state kept in the plant, so a saved plant
 * draws the same numbers when it goes on. Mixing function of the "mulberry" 32-bit kind.
 */

/** Added to the state for each number drawn. */
export const RANDOM_STRIDE = 0x6d2b79f5;

/** The state a seed begins with. */
export const firstRandom = (seed: number): number => seed | 0;

/** The state after one number was drawn. */
export const nextRandom = (state: number): number => (state + RANDOM_STRIDE) | 0;

/** A number from −1 up to 1, drawn from a state. */
export const spread = (state: number): number => {
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 2147483648 - 1;
};
