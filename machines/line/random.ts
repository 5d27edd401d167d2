/** The one seeded generator of the line (mulberry32: 32-bit state, public domain arithmetic). */
import type { Work } from './work.ts';

const mixed = (state: number): number => {
  let t = state;
  t = Math.imul(t ^ (t >>> 15), t | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return (t ^ (t >>> 14)) >>> 0;
};

export const nextState = (state: number): number => (state + 0x6d2b79f5) >>> 0;

/** Uniform in [0, 1) from a state; advance it with nextState. */
export const unitOf = (state: number): number => mixed(nextState(state)) / 2 ** 32;

/** Draws from the line's generator. */
export const drawUnit = (work: Work): number => {
  const unit = unitOf(work.line.random);
  work.line.random = nextState(work.line.random);
  return unit;
};
