/** Forecasts: cooling by Newton's law with the conductances of the plant file, drying by heat balance. */
import { blendMoisturePct } from '../mix/batch-targets.ts';
import { coolingTauS, timeUntilInsideS, timeUntilOutsideS } from '../mix/newton-cooling.ts';
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K, WATER_LATENT_KJ_KG } from '../mix/published.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { Line } from './line.types.ts';
import { accountGrams, binsNow, drawWindow } from './lookup.ts';

export type Forecast = { readonly untilInS: number | null; readonly untilOutS: number | null };

export const NO_FORECAST: Forecast = { untilInS: null, untilOutS: null };

/** When the aggregate in the holding bin comes into the window of a mix, and when it falls out of it. */
export const holdingBinForecast = (line: Line, mix: Mix): Forecast => {
  const { readings, outputs, scenario } = line;
  if (readings.holdingBinKg < 20) return NO_FORECAST;
  const { fanWPerK, stillWPerK } = scenario.plant.holdingBin;
  const { fromC, toC } = drawWindow(mix);
  const whole = mix.windows.aggregateC;
  const withFan = coolingTauS(
    readings.holdingBinKg,
    STONE_CP_KJ_KG_K,
    outputs.coolingFan ? fanWPerK : stillWPerK,
  );
  const still = coolingTauS(readings.holdingBinKg, STONE_CP_KJ_KG_K, stillWPerK);
  const untilInS = timeUntilInsideS(readings.holdingBinC, readings.ambientC, withFan, fromC, toC);
  const untilOutS = timeUntilOutsideS(readings.holdingBinC, readings.ambientC, still, whole.fromC, whole.toC);
  return { untilInS: untilInS === 0 ? null : untilInS, untilOutS };
};

/**
 * Seconds of high fire a charge still needs, by heat balance: stone to its outlet temperature, water to the boil and
 * off as steam, over what the burner gives to the load. Water is taken to leave evenly as the stone warms.
 */
export const dryingForecast = (
  line: Line,
  mix: Mix,
): { readonly seconds: number; readonly ofSeconds: number } => {
  const { plant } = line.scenario;
  const wetKg = accountGrams(line, 'dryer') / 1000;
  const dryKg = wetKg / (1 + blendMoisturePct(mix, binsNow(line)) / 100);
  const outC = mix.drying?.outC ?? 100;
  const fromC = line.readings.ambientC;
  const boilKj = (wetKg - dryKg) * (WATER_CP_KJ_KG_K * (100 - fromC) + WATER_LATENT_KJ_KG);
  const allKj = dryKg * STONE_CP_KJ_KG_K * (outC - fromC) + boilKj;
  const kw = plant.dryer.burnerKw * plant.dryer.efficiency;
  const warmed = (line.readings.drumAggregateC - fromC) / Math.max(1, outC - fromC);
  const left = 1 - Math.max(0, Math.min(1, warmed));
  return { seconds: (allKj * left) / kw, ofSeconds: Math.max(1, allKj / kw) };
};
