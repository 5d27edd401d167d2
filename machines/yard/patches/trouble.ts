/** What is wrong with the measures of a hole, in words that say what to do. */
import { THINNEST_LAYER_MM } from './layers.ts';
import type { Measured } from './patch.types.ts';

/** Mix like this is for potholes, not for long stretches (IRC:116, scope); the figures are common practice, no source. */
const LONGEST_M = 20;
const WIDEST_M = 10;
const SHORTEST_M = 0.05;
const DEEPEST_MM = 600;

export type Trouble = { readonly field: keyof Measured; readonly message: string };

const side = (field: 'lengthM' | 'widthM', m: number, mostM: number): Trouble[] => {
  const name = field === 'lengthM' ? 'Length' : 'Width';
  if (!Number.isFinite(m)) return [{ field, message: `${name} is no number: write metres, such as 1.2.` }];
  if (m <= 0) return [{ field, message: `${name} must be above 0: measure the hole again.` }];
  if (m < SHORTEST_M)
    return [
      {
        field,
        message: `${name} of ${m} m is below ${SHORTEST_M} m: fill it together with the hole beside it.`,
      },
    ];
  if (m > mostM)
    return [
      {
        field,
        message: `${name} of ${m} m is above ${mostM} m: patching mix is for holes; see that it is in metres, or split it.`,
      },
    ];
  return [];
};

const depth = (mm: number): Trouble[] => {
  const field = 'depthMm';
  if (!Number.isFinite(mm)) return [{ field, message: 'Depth is no number: write millimetres, such as 60.' }];
  if (mm <= 0) return [{ field, message: 'Depth must be above 0: measure the hole again.' }];
  if (Math.round(mm) < THINNEST_LAYER_MM)
    return [
      {
        field,
        message: `${mm} mm is too thin for a layer, ${THINNEST_LAYER_MM} mm at least: cut it down to ${THINNEST_LAYER_MM} mm and write that, or leave it for surface treatment and take it out.`,
      },
    ];
  if (mm > DEEPEST_MM)
    return [
      {
        field,
        message: `${mm} mm is deeper than ${DEEPEST_MM} mm: see that it is in millimetres; a hole so deep is a repair of the road, not a patch.`,
      },
    ];
  return [];
};

export const troubleWith = (hole: Measured): readonly Trouble[] => [
  ...(hole.place.trim() === ''
    ? [{ field: 'place' as const, message: 'No place is given: write where the hole is.' }]
    : []),
  ...side('lengthM', hole.lengthM, LONGEST_M),
  ...side('widthM', hole.widthM, WIDEST_M),
  ...depth(hole.depthMm),
];
