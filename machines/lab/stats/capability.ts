/** Capability: how the spread of a steady process fits between its limits (NIST/SEMATECH e-Handbook 6.1.6). */

export type Capability = {
  /** (upper − lower) / 6s; null without both limits. */
  readonly cp: number | null;
  readonly cpLower: number | null;
  readonly cpUpper: number | null;
  /** The smaller of the two sides there are. */
  readonly cpk: number | null;
  /** How far the mean lies off the middle, 0 to 1 at the limits. */
  readonly k: number | null;
};

/** Of a process with this mean and standard deviation (both in the unit of the limits). */
export const capability = (
  { mean, sigma }: { readonly mean: number; readonly sigma: number },
  { from, to }: { readonly from: number | null; readonly to: number | null },
): Capability => {
  if (!(sigma > 0)) return { cp: null, cpLower: null, cpUpper: null, cpk: null, k: null };
  const cpLower = from === null ? null : (mean - from) / (3 * sigma);
  const cpUpper = to === null ? null : (to - mean) / (3 * sigma);
  const sides = [cpLower, cpUpper].filter((one) => one !== null);
  const both = from !== null && to !== null && to > from;
  return {
    cp: both ? (to - from) / (6 * sigma) : null,
    cpLower,
    cpUpper,
    cpk: sides.length === 0 ? null : Math.min(...sides),
    k: both ? Math.abs((to + from) / 2 - mean) / ((to - from) / 2) : null,
  };
};
