/** Rules of ASTM C136 for sieving: mass lost, overload of a sieve, how percentages are rounded and reported. */
/** Mass before and after sieving may differ by so much, % of what was put on the sieves (ASTM C136). */
export const SIEVING_LOSS_PCT = 0.3;

/** Within a minute of further hand sieving at most so much of what lies on a sieve may pass, % (ASTM C136). */
export const FURTHER_SIEVING_PCT = 0.5;

export type SieveDiameter = '203' | '305';

/** By nominal diameter in mm (8 and 12 in): sieving area in m², and what may lie on it below 4.75 mm, g (ASTM C136). */
const SIEVES: Readonly<Record<SieveDiameter, { readonly areaM2: number; readonly fineG: number }>> = {
  203: { areaM2: 0.0285, fineG: 200 },
  305: { areaM2: 0.067, fineG: 469 },
};

/**
 * Most that may lie on a sieve at the end of sieving, g (ASTM C136): below 4.75 mm 7 kg/m², from 4.75 mm
 * 2.5 × opening in mm × area in m², in kg.
 */
export const overloadG = (sieveMm: number, diameter: SieveDiameter): number =>
  sieveMm < 4.75 ? SIEVES[diameter].fineG : 2500 * sieveMm * SIEVES[diameter].areaM2;

/**
 * Places after the point that a % passing is reported with (ASTM C136): none, but one on 75 µm when below 10 %. It is
 * computed to 0.1 % first and reported from that.
 */
export const reportedPlaces = (sieveMm: number, passingPct: number): number =>
  sieveMm === 0.075 && passingPct < 10 ? 1 : 0;

/** Least dry mass in g by the largest size of the stone, mm (ASTM C136, from memory). */
const LEAST_G: readonly (readonly [sizeMm: number, leastG: number])[] = [
  [25, 10_000],
  [19, 5000],
  [12.5, 2000],
  [9.5, 1000],
];

/** Least dry mass to sieve, g, by the sieve that all stone passes. */
export const leastDryG = (sizeMm: number): number => LEAST_G.find(([from]) => sizeMm >= from)?.[1] ?? 300;
