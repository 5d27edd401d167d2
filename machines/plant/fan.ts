/** A fan with its duct: flow runs up and down as first-order lags (teaching model of inertia). */
import { approach, lagShare } from './time.ts';

export type FanPace = { readonly up: number; readonly down: number };

/** Time constants in s of a fan running up and running down. */
export const fanPace = (upS: number, downS: number): FanPace => ({
  up: lagShare(upS),
  down: lagShare(downS),
});

/** Flow in m³/s after one step towards full or still. */
export const stepFan = (flowM3S: number, running: boolean, fullM3S: number, pace: FanPace): number =>
  running
    ? approach(flowM3S, fullM3S, pace.up, fullM3S * 1e-4)
    : approach(flowM3S, 0, pace.down, fullM3S * 1e-4);
