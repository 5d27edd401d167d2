/** Temperatures as bars against the window that matters now. */
import { type Forecast, holdingBinForecast, NO_FORECAST } from '../forecast.ts';
import type { Line } from '../line.types.ts';
import { accountGrams, campaignState, drawsDried, drawWindow, presentMix } from '../lookup.ts';
import type { TempView } from '../view.types.ts';

type Window = { readonly fromC: number; readonly toC: number };

const temp = (
  id: string,
  label: string,
  valueC: number,
  window: Window | null,
  scaleC: readonly [number, number],
  matters: boolean,
  forecast: Forecast = NO_FORECAST,
): TempView => ({
  id,
  label,
  valueC,
  fromC: window?.fromC ?? null,
  toC: window?.toC ?? null,
  scaleC,
  standing: window === null || !matters || (valueC >= window.fromC && valueC <= window.toC) ? 'met' : 'unmet',
  ...forecast,
});

/** The holding bin is hot by design while it is being filled; only once cooling has begun does its window matter. */
const holdingBin = (line: Line): TempView => {
  const { readings } = line;
  const mix = presentMix(line);
  const stage = campaignState(line);
  const filled = readings.holdingBinKg > 20;
  const cools = filled && (stage === 'cooling' || stage === 'available');
  return temp(
    'holdingBin',
    'Aggregate in holding bin',
    readings.holdingBinC,
    filled ? drawWindow(mix) : null,
    [0, 140],
    cools,
    cools ? holdingBinForecast(line, mix) : NO_FORECAST,
  );
};

export const tempViews = (line: Line): readonly TempView[] => {
  const { readings: r } = line;
  const mix = presentMix(line);
  const { aggregateC, binderC } = mix.windows;
  const charged = r.hopperKg > 20;
  const mixing = accountGrams(line, 'mixer') > 0;
  return [
    drawsDried(mix)
      ? holdingBin(line)
      : temp('hopper', 'Aggregate in hopper', r.hopperC, charged ? aggregateC : null, [-10, 100], charged),
    mix.family === 'cutback'
      ? temp('cutbackTank', 'Cutback', r.cutbackTankC, binderC, [0, 140], true)
      : temp('emulsionTank', 'Emulsion', r.emulsionTankC, binderC, [-10, 100], true),
    temp('mix', 'Mix in pug mill', r.mixC, mixing ? aggregateC : null, [-10, 140], mixing),
  ];
};
