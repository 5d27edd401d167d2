/** Binder temperatures between two viscosities (ASTM D341). */
import { tempOfViscosityC, type ViscosityPoint, waltherLine } from './walther.ts';

/** °C at which the binder is toMm2S thick (cool end) and fromMm2S thin (hot end). */
export const viscosityWindowC = (
  points: readonly [ViscosityPoint, ViscosityPoint],
  fromMm2S: number,
  toMm2S: number,
): { readonly fromC: number; readonly toC: number } => {
  const line = waltherLine(points[0], points[1]);
  return { fromC: tempOfViscosityC(line, toMm2S), toC: tempOfViscosityC(line, fromMm2S) };
};
