/** Kinematic viscosity against temperature by the Walther equation of ASTM D341. */

/** log10(log10(Z)) = a − b·log10(T), T in kelvin. */
export type WaltherLine = { readonly a: number; readonly b: number; readonly zeroCInK: number };

export type ViscosityPoint = { readonly tempC: number; readonly mm2S: number };

/** Z of ASTM D341: v + 0.7, with the extra term below 2 mm²/s. */
const zOf = (mm2S: number): number =>
  mm2S >= 2 ? mm2S + 0.7 : mm2S + 0.7 + Math.exp(-1.47 - 1.84 * mm2S - 0.51 * mm2S * mm2S);

const viscosityOf = (z: number): number => {
  const v = z - 0.7;
  if (v >= 2) return v;
  return v - Math.exp(-0.7487 - 3.295 * v + 0.6119 * v * v - 0.3193 * v * v * v);
};

const loglog = (mm2S: number): number => Math.log10(Math.log10(zOf(mm2S)));

/**
 * The line through two measured points (°C, mm²/s), ASTM D341.
 *
 * The standard's older examples count kelvin from 273 and newer ones from 273.15; a and b
 * differ in the third decimal, so the zero is part of the line.
 */
export const waltherLine = (cool: ViscosityPoint, hot: ViscosityPoint, zeroCInK = 273.15): WaltherLine => {
  const xCool = Math.log10(cool.tempC + zeroCInK);
  const xHot = Math.log10(hot.tempC + zeroCInK);
  const b = (loglog(cool.mm2S) - loglog(hot.mm2S)) / (xHot - xCool);
  return { a: loglog(cool.mm2S) + b * xCool, b, zeroCInK };
};

/** Kinematic viscosity in mm²/s at a temperature in °C, held below 1e9 far on the cold side. */
export const viscosityMm2S = (line: WaltherLine, tempC: number): number => {
  const log10Z = 10 ** (line.a - line.b * Math.log10(tempC + line.zeroCInK));
  return log10Z > 9 ? 1e9 : viscosityOf(10 ** log10Z);
};

/** Temperature in °C at which the line has a viscosity in mm²/s. */
export const tempOfViscosityC = (line: WaltherLine, mm2S: number): number =>
  10 ** ((line.a - loglog(mm2S)) / line.b) - line.zeroCInK;
