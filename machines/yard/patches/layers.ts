/** How deep the mix goes and in which layers it is compacted; whole millimetres. */
import type { Basis } from './basis.ts';

/** A layer of mix, compacted: common practice, no source; 75 mm at most also by IRC:116 clause 2. */
export const THINNEST_LAYER_MM = 25;
export const THICKEST_LAYER_MM = 75;
/** Crusher run is compacted in layers of at most this, and less than the least is not worth placing: common practice, no source. */
export const THICKEST_FILL_LAYER_MM = 100;
export const THINNEST_FILL_MM = 50;

/** Equal parts of whole millimetres, the thicker ones first: 151 in 3 is 51, 50, 50. */
const partsOf = (wholeMm: number, count: number): number[] => {
  const each = Math.floor(wholeMm / count);
  const over = wholeMm - each * count;
  return Array.from({ length: count }, (_, i) => each + (i < over ? 1 : 0));
};

/**
 * As few equal layers as are legal, from the bottom up: 90 mm is 45 + 45, never 75 + 15.
 * Legal for every whole depth from 25 mm: above 75 mm at least two layers share it, so none falls below 38 mm.
 * Empty when the depth is below 25 mm.
 */
export const layersOf = (depthMm: number): readonly number[] =>
  depthMm < THINNEST_LAYER_MM ? [] : partsOf(depthMm, Math.ceil(depthMm / THICKEST_LAYER_MM));

export const fillLayersOf = (depthMm: number): readonly number[] =>
  depthMm === 0 ? [] : partsOf(depthMm, Math.ceil(depthMm / THICKEST_FILL_LAYER_MM));

/**
 * Depth of mix and of crusher run below it, mm; they add to the depth of the hole. Crusher run makes good what lies
 * deeper than mix may go: over the granular base, or in a hole too deep for mix alone. Fill thinner than 50 mm is
 * made 50 mm and the mix thinner, as long as a legal layer of mix is left.
 */
export const depthsOf = (
  depthMm: number,
  baseReached: boolean,
  basis: Pick<Basis, 'mixAloneMm' | 'mixOverBaseMm'>,
): { readonly mixMm: number; readonly fillMm: number } => {
  const most = baseReached ? basis.mixOverBaseMm : basis.mixAloneMm;
  if (depthMm <= most) return { mixMm: depthMm, fillMm: 0 };
  const fillMm = Math.max(depthMm - most, Math.min(THINNEST_FILL_MM, depthMm - THINNEST_LAYER_MM));
  return { mixMm: depthMm - fillMm, fillMm };
};
