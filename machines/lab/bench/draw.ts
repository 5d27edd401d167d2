/** Chance and rounding of the simulated bench. */
import { roundedTo } from '../worksheets/rounding.ts';
import type { Rng } from './bench.types.ts';

/** A number of the standard normal distribution (Box and Muller). Draws twice. */
export const normal = (rng: Rng): number =>
  Math.sqrt(-2 * Math.log(1 - rng())) * Math.cos(2 * Math.PI * rng());

/** Uniform between two numbers. */
export const between = (rng: Rng, from: number, to: number): number => from + (to - from) * rng();

export const clamped = (value: number, from: number, to: number): number =>
  Math.min(to, Math.max(from, value));

/** What the test would show: truth with its error, kept between what is possible. */
export const observed = (
  rng: Rng,
  truth: number,
  sd: number,
  from = 0,
  to = Number.POSITIVE_INFINITY,
): number => clamped(truth + sd * normal(rng), from, to);

/** As a balance or a burette shows it, which stands on multiples of its readability. */
export const read = (value: number, readability: number): number =>
  roundedTo(Math.round(value / readability) * readability, 6);
