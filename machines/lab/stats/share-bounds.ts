/** For a plan that judges by the share within limits: between which means a lot of given spread is accepted. */
import { pwlOfQuality } from './pwl.ts';

type Sides = { readonly from: number | null; readonly to: number | null };

const withinPct = (mean: number, s: number, n: number, { from, to }: Sides): number =>
  (from === null ? 100 : pwlOfQuality((mean - from) / s, n)) +
  (to === null ? 100 : pwlOfQuality((to - mean) / s, n)) -
  100;

const HALVINGS = 60;

/** Where the share falls below what is asked for, going from an accepted mean to one that is not. */
const edge = (accepted: number, rejected: number, isAccepted: (mean: number) => boolean): number => {
  let [inside, outside] = [accepted, rejected];
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (inside + outside) / 2;
    if (isAccepted(middle)) inside = middle;
    else outside = middle;
  }
  return (inside + outside) / 2;
};

/** Lowest and highest mean accepted with spread s; null when none is. */
export const acceptedMeans = (
  s: number,
  n: number,
  sides: Sides,
  leastPct: number,
): { readonly low: number; readonly high: number } | null => {
  const isAccepted = (mean: number): boolean => withinPct(mean, s, n, sides) >= leastPct;
  const { from, to } = sides;
  /** Further than this from a limit everything is in, or everything is out. */
  const far = 10 * Math.sqrt(n) * s;
  if (from !== null && to !== null) {
    const middle = (from + to) / 2;
    if (!isAccepted(middle)) return null;
    return { low: edge(middle, from - far, isAccepted), high: edge(middle, to + far, isAccepted) };
  }
  if (from !== null) return { low: edge(from + far, from - far, isAccepted), high: Number.POSITIVE_INFINITY };
  if (to !== null) return { low: Number.NEGATIVE_INFINITY, high: edge(to - far, to + far, isAccepted) };
  return { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
};
