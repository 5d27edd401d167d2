/** A metered liquid line (pre-wet water, anti-strip): flow with a short lag and a running total. */
import { approach, lagShare, STEP_S } from './time.ts';

const VALVE_SHARE = lagShare(0.25);

export type MeteredFlow = { readonly flowKgS: number; readonly gaveKg: number; readonly totalKg: number };

/** A shut line whose total stands at 0. */
export const NO_FLOW: MeteredFlow = { flowKgS: 0, gaveKg: 0, totalKg: 0 };

/** One step: flow towards fullKgS (kg/s) or nothing with a lag, and the total in kg (lag: teaching value). */
export const stepMeteredFlow = (line: MeteredFlow, open: boolean, fullKgS: number): MeteredFlow => {
  if (!open && line.flowKgS === 0 && line.gaveKg === 0) return line;
  const flowKgS = approach(line.flowKgS, open ? fullKgS : 0, VALVE_SHARE, fullKgS * 1e-3);
  const gaveKg = flowKgS * STEP_S;
  return { flowKgS, gaveKg, totalKg: line.totalKg + gaveKg };
};
