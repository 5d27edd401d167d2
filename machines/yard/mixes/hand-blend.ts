/** Blending by hand: one bin is moved, the others make room in proportion, and shares always add to 100 %. */
import { roundedToSum } from '../../mix/round-to-interval.ts';

export type HandShare = { readonly bin: number; readonly dryPct: number };

const STEP_PCT = 0.1;

/**
 * Shares after one bin was set to a share (0 to 100 %), in steps of 0.1 %. The others keep their proportions; when all
 * others are at 0 they share equally what is left.
 */
export const withShare = (shares: readonly HandShare[], bin: number, pct: number): HandShare[] => {
  const set = Math.min(100, Math.max(0, Math.round(pct / STEP_PCT) * STEP_PCT));
  const others = shares.filter((one) => one.bin !== bin);
  if (others.length === 0) return shares.map((one) => ({ ...one, dryPct: 100 }));
  const sum = others.reduce((total, one) => total + one.dryPct, 0);
  const parts = others.map((one) =>
    sum > 0 ? ((100 - set) * one.dryPct) / sum : (100 - set) / others.length,
  );
  const rounded = roundedToSum(parts, STEP_PCT);
  return shares.map((one) => {
    const place = others.indexOf(one);
    return { ...one, dryPct: place < 0 ? Math.round(set * 10) / 10 : (rounded[place] as number) };
  });
};

/** Every bin of the plant with its share, 0 where the mix does not draw from it. */
export const allShares = (aggregates: readonly HandShare[], bins: readonly number[]): HandShare[] =>
  bins.map((bin) => ({ bin, dryPct: aggregates.find((one) => one.bin === bin)?.dryPct ?? 0 }));

/** Shares as a mix file holds them: bins that give nothing are left out. */
export const drawnShares = (shares: readonly HandShare[]): HandShare[] =>
  shares.filter((one) => one.dryPct > 0).map(({ bin, dryPct }) => ({ bin, dryPct }));
