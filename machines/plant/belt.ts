/**
 * The belt from mixer to bays: what falls on it arrives about six seconds later wherever the tripper
 * stands by then; a still belt heaps it up. Three equal lags in a row stand for the run (teaching model).
 */
import { lagShare } from './time.ts';

const RUN_SHARE = lagShare(2);
const CRUMBS_KG = 0.01;

export type Belt = {
  readonly nearKg: number;
  readonly midKg: number;
  readonly farKg: number;
  readonly gaveKg: number;
};

/** A belt with nothing on it. */
export const EMPTY_BELT: Belt = { nearKg: 0, midKg: 0, farKg: 0, gaveKg: 0 };

/** Mix on the belt, kg. */
export const beltHeldKg = (belt: Belt): number => belt.nearKg + belt.midKg + belt.farKg;

/**
 * One step: mix arriving in kg, and in `gaveKg` what falls off the far end; mass is kept exactly (teaching
 * model).
 */
export const stepBelt = (belt: Belt, running: boolean, arrivingKg: number): Belt => {
  const heldKg = belt.nearKg + belt.midKg + belt.farKg;
  if (arrivingKg === 0 && (heldKg === 0 || !running))
    return belt.gaveKg === 0
      ? belt
      : { nearKg: belt.nearKg, midKg: belt.midKg, farKg: belt.farKg, gaveKg: 0 };
  if (!running) return { nearKg: belt.nearKg + arrivingKg, midKg: belt.midKg, farKg: belt.farKg, gaveKg: 0 };
  if (arrivingKg === 0 && heldKg < CRUMBS_KG) return { nearKg: 0, midKg: 0, farKg: 0, gaveKg: heldKg };
  const toMid = belt.nearKg * RUN_SHARE;
  const toFar = belt.midKg * RUN_SHARE;
  const gaveKg = belt.farKg * RUN_SHARE;
  return {
    nearKg: belt.nearKg - toMid + arrivingKg,
    midKg: belt.midKg - toFar + toMid,
    farKg: belt.farKg - gaveKg + toFar,
    gaveKg,
  };
};
