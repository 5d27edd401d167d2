/** Forecasts of temperatures by Newton's law of cooling with the conductances of the plant file. */
import { coolingTauS, timeUntilInsideS, timeUntilOutsideS } from '../mix/newton-cooling.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { Line } from './line.types.ts';
import { drawWindow } from './lookup.ts';

/** Specific heat of dry stone, kJ/kg·K: granite 0.79, basalt 0.84 (handbook tables of solids). */
const STONE_CP = 0.82;

export type Forecast = { readonly untilInS: number | null; readonly untilOutS: number | null };

export const NO_FORECAST: Forecast = { untilInS: null, untilOutS: null };

/** When the aggregate in the holding bin comes into the window of a mix, and when it falls out of it. */
export const holdingBinForecast = (line: Line, mix: Mix): Forecast => {
  const { readings, outputs, scenario } = line;
  if (readings.holdingBinKg < 20) return NO_FORECAST;
  const { fanWPerK, stillWPerK } = scenario.plant.holdingBin;
  const { fromC, toC } = drawWindow(mix);
  const whole = mix.windows.aggregateC;
  const withFan = coolingTauS(readings.holdingBinKg, STONE_CP, outputs.coolingFan ? fanWPerK : stillWPerK);
  const still = coolingTauS(readings.holdingBinKg, STONE_CP, stillWPerK);
  const untilInS = timeUntilInsideS(readings.holdingBinC, readings.ambientC, withFan, fromC, toC);
  const untilOutS = timeUntilOutsideS(readings.holdingBinC, readings.ambientC, still, whole.fromC, whole.toC);
  return { untilInS: untilInS === 0 ? null : untilInS, untilOutS };
};
