/** Where sieves stand on the two usual grading charts, and the band, the line of greatest density and what leaves it. */

export type Axis = 'power' | 'log';

/** A place on the chart: x from 0 (fine) to 1 (coarse), y is % passing. */
export type ChartPoint = { readonly x: number; readonly passingPct: number };

export type BandLimit = { readonly sieveMm: number; readonly fromPct?: number; readonly toPct?: number };

export type Extent = { readonly finestMm: number; readonly coarsestMm: number };

/** FHWA 0.45-power chart. */
export const POWER = 0.45;

/** From the finest to the coarsest of some sieves; a tenth of a millimetre to 100 mm when there are none. */
export const extentOf = (sieves: readonly number[]): Extent => {
  const known = sieves.filter((sieveMm) => sieveMm > 0);
  return known.length === 0
    ? { finestMm: 0.1, coarsestMm: 100 }
    : { finestMm: Math.min(...known), coarsestMm: Math.max(...known) };
};

/**
 * 0 to 1 along the chart. power: (d ÷ D)^0.45, its zero is opening 0. log: from finest to coarsest, 0.5 when both are
 * the same; openings outside fall outside.
 */
export const axisX = (axis: Axis, sieveMm: number, { finestMm, coarsestMm }: Extent): number => {
  if (axis === 'power') return (sieveMm / coarsestMm) ** POWER;
  if (finestMm === coarsestMm) return 0.5;
  return Math.log(sieveMm / finestMm) / Math.log(coarsestMm / finestMm);
};

/** As a sieve is called: 4.75 mm, 75 µm. */
export const sieveName = (sieveMm: number): string =>
  sieveMm < 1 ? `${Math.round(sieveMm * 1000)} µm` : `${sieveMm} mm`;

export type Tick = {
  readonly sieveMm: number;
  readonly x: number;
  readonly name: string;
  readonly row: 0 | 1;
};

/** A tick for each sieve, fine to coarse; names that would lie closer than `apart` go to a second row. */
export const axisTicks = (
  axis: Axis,
  sieves: readonly number[],
  extent: Extent,
  apart = 0.07,
): readonly Tick[] => {
  let before: { x: number; row: 0 | 1 } | null = null;
  return [...new Set(sieves)]
    .sort((a, b) => a - b)
    .map((sieveMm) => {
      const x = axisX(axis, sieveMm, extent);
      const row: 0 | 1 = before !== null && before.row === 0 && x - before.x < apart ? 1 : 0;
      before = { x, row };
      return { sieveMm, x, name: sieveName(sieveMm), row };
    });
};

/** % passing on the straight line of greatest density, 100 × (d ÷ D)^0.45 (Fuller and Thompson with the FHWA exponent). */
export const densestPct = (sieveMm: number, largestMm: number): number =>
  Math.min(100, 100 * (sieveMm / largestMm) ** POWER);

/** A grading as a line, coarse to fine. */
export const gradingLine = (
  axis: Axis,
  points: readonly { readonly sieveMm: number; readonly passingPct: number }[],
  extent: Extent,
): readonly ChartPoint[] =>
  [...points]
    .sort((a, b) => b.sieveMm - a.sieveMm)
    .map(({ sieveMm, passingPct }) => ({ x: axisX(axis, sieveMm, extent), passingPct }));

/** Outline of a band: along its upper edge from coarse to fine and back along the lower. A missing side is 100 or 0. */
export const bandOutline = (
  axis: Axis,
  band: readonly BandLimit[],
  extent: Extent,
): readonly ChartPoint[] => {
  const coarseFirst = [...band].sort((a, b) => b.sieveMm - a.sieveMm);
  const upper = coarseFirst.map(({ sieveMm, toPct }) => ({ sieveMm, passingPct: toPct ?? 100 }));
  const lower = coarseFirst.map(({ sieveMm, fromPct }) => ({ sieveMm, passingPct: fromPct ?? 0 }));
  return [...gradingLine(axis, upper, extent), ...gradingLine(axis, lower, extent).toReversed()];
};

export type OutOfBand = {
  readonly sieveMm: number;
  readonly passingPct: number;
  readonly side: 'too coarse' | 'too fine';
  readonly limitPct: number;
};

/** Sieves whose % passing lies outside the band. Less passing than the least is too coarse there, more too fine. */
export const outOfBand = (
  points: readonly { readonly sieveMm: number; readonly passingPct: number }[],
  band: readonly BandLimit[],
): readonly OutOfBand[] =>
  points.flatMap(({ sieveMm, passingPct }): OutOfBand[] => {
    const limit = band.find((one) => one.sieveMm === sieveMm);
    if (limit?.fromPct !== undefined && passingPct < limit.fromPct)
      return [{ sieveMm, passingPct, side: 'too coarse', limitPct: limit.fromPct }];
    if (limit?.toPct !== undefined && passingPct > limit.toPct)
      return [{ sieveMm, passingPct, side: 'too fine', limitPct: limit.toPct }];
    return [];
  });
