/** Which bins the stone of a heap came from: shares by mass, carried along so that its grading stays known. */

/** Shares of stone from bins 2, 3 and 4; the rest is from bin 1. */
export type Sizes = { readonly bin2: number; readonly bin3: number; readonly bin4: number };

/** Stone from one bin alone, by its place counted from 0. */
export const FROM_BIN: readonly Sizes[] = [
  { bin2: 0, bin3: 0, bin4: 0 },
  { bin2: 1, bin3: 0, bin4: 0 },
  { bin2: 0, bin3: 1, bin4: 0 },
  { bin2: 0, bin3: 0, bin4: 1 },
];

/** Stone from bin 1 alone. */
export const ALL_BIN_1 = FROM_BIN[0] as Sizes;

/** Shares by bin, 1 to 4. */
export const sharesOf = (sizes: Sizes): readonly [number, number, number, number] => [
  1 - sizes.bin2 - sizes.bin3 - sizes.bin4,
  sizes.bin2,
  sizes.bin3,
  sizes.bin4,
];

/** Shares of two heaps of so many kg of stone thrown together. */
export const blended = (held: Sizes, heldKg: number, more: Sizes, moreKg: number): Sizes => {
  if (moreKg === 0 || (held.bin2 === more.bin2 && held.bin3 === more.bin3 && held.bin4 === more.bin4))
    return held;
  if (heldKg === 0) return more;
  const part = moreKg / (heldKg + moreKg);
  return {
    bin2: held.bin2 + (more.bin2 - held.bin2) * part,
    bin3: held.bin3 + (more.bin3 - held.bin3) * part,
    bin4: held.bin4 + (more.bin4 - held.bin4) * part,
  };
};
