/** Where things lie on the bars of weights and temperatures, as shares from 0 to 1. */
import type { TempView, WeightView } from '../../machines/line/view.types.ts';

export type WeightScale = {
  readonly fullKg: number;
  readonly value: number;
  readonly target: number | null;
  readonly band: null | { readonly from: number; readonly to: number };
};

const clamp = (share: number): number => Math.min(1, Math.max(0, share));

/** The bar ends a little past the target so that too much is seen; without a target at the capacity. */
export function weightScale(weight: WeightView): WeightScale {
  const fullKg = weight.targetKg !== null && weight.targetKg > 0 ? weight.targetKg * 1.2 : weight.capacityKg;
  const at = (massKg: number) => (fullKg > 0 ? clamp(massKg / fullKg) : 0);
  return {
    fullKg,
    value: at(weight.valueKg),
    target: weight.targetKg === null ? null : at(weight.targetKg),
    band:
      weight.lowKg === null || weight.highKg === null
        ? null
        : { from: at(weight.lowKg), to: at(weight.highKg) },
  };
}

export type TempScale = {
  readonly value: number;
  readonly band: null | { readonly from: number; readonly to: number };
};

export function tempScale(temp: TempView): TempScale {
  const [lowC, highC] = temp.scaleC;
  const at = (tempC: number) => (highC > lowC ? clamp((tempC - lowC) / (highC - lowC)) : 0);
  return {
    value: at(temp.valueC),
    band:
      temp.fromC === null && temp.toC === null
        ? null
        : { from: at(temp.fromC ?? lowC), to: at(temp.toC ?? highC) },
  };
}

/** What clings to an empty hopper is not worth a bar. */
const EMPTY_SHARE = 0.005;

/** Shown while it has a target, holds something, or wants a person; the drawing shows the rest. */
export const countsNow = (weight: WeightView): boolean =>
  weight.targetKg !== null ||
  weight.standing !== 'met' ||
  Math.abs(weight.valueKg) > Math.max(1, EMPTY_SHARE * weight.capacityKg);

export const matters = (temp: TempView): boolean =>
  temp.fromC !== null || temp.toC !== null || temp.standing !== 'met';
