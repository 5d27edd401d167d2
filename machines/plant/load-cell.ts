/**
 * A weighing cell under a hopper: a damped second-order system (standard physics), advanced exactly
 * for a load held over one step.
 */
import { STEP_S } from './time.ts';

export type LoadCell = { readonly kg: number; readonly kgPerS: number };

/** The step matrix of y'' = ω²(u − y) − 2ζω·y'. */
export type CellMatrix = {
  readonly yy: number;
  readonly yv: number;
  readonly vy: number;
  readonly vv: number;
};

/** Natural frequency in rad/s and damping ratio below 1. */
export const cellMatrix = (omega: number, zeta: number): CellMatrix => {
  const damped = omega * Math.sqrt(1 - zeta * zeta);
  const decay = Math.exp(-zeta * omega * STEP_S);
  const c = Math.cos(damped * STEP_S);
  const s = Math.sin(damped * STEP_S) / damped;
  return {
    yy: decay * (c + zeta * omega * s),
    yv: decay * s,
    vy: -decay * omega * omega * s,
    vv: decay * (c - zeta * omega * s),
  };
};

/** 1.2 Hz, damping 0.45: settles in about a second and a half (teaching values). */
export const HOPPER_CELL = cellMatrix(7.5, 0.45);
/** A lighter vessel on a stiffer cell. */
export const BUCKET_CELL = cellMatrix(12, 0.5);

/** A cell at rest under no load. */
export const STILL_CELL: LoadCell = { kg: 0, kgPerS: 0 };

/**
 * One step under a load in kg: the exact solution of the damped oscillator for a load held still (standard
 * physics).
 */
export const stepLoadCell = (cell: LoadCell, matrix: CellMatrix, loadKg: number): LoadCell => {
  const off = cell.kg - loadKg;
  if (off < 1e-7 && off > -1e-7 && cell.kgPerS < 1e-6 && cell.kgPerS > -1e-6)
    return off === 0 && cell.kgPerS === 0 ? cell : { kg: loadKg, kgPerS: 0 };
  return {
    kg: loadKg + matrix.yy * off + matrix.yv * cell.kgPerS,
    kgPerS: matrix.vy * off + matrix.vv * cell.kgPerS,
  };
};
