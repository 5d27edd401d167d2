/** Temperatures of a mix: binder windows, the mix after contact, drying, cooling, and when to begin heating. */
import { type DrawForecast, drawForecast } from '../../mix/bin-cooling.ts';
import { binderCpKjKgK, contactC, stoneBody, waterBody } from '../../mix/contact-heat.ts';
import { type CampaignPlan, campaignPlan, dryingHeat } from '../../mix/drying-heat.ts';
import { coolingTauS, timeToReachS } from '../../mix/newton-cooling.ts';
import { celsiusOf, MIXING_WINDOWS_F, STONE_CP_KJ_KG_K } from '../../mix/published.ts';
import { heatUpS } from '../../mix/tank-warming.ts';
import { viscosityWindowC } from '../../mix/viscosity-window.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';
import type { Conditions } from './conditions.ts';
import type { Factors } from './factors.ts';
import { type Finding, figure } from './findings.ts';
import type { WeightsSheet } from './weights-sheet.ts';

export type Window = { readonly fromC: number; readonly toC: number };

export type TemperaturesSheet = {
  readonly windows: {
    readonly file: Window;
    /** From viscosity, for cutback only: an emulsion is thin at any temperature it may have. */
    readonly viscosity: Window | null;
    readonly published: { readonly grade: string; readonly window: Window } | null;
  };
  /** The mix once stone, water and binder have met, before anything is lost. */
  readonly mixC: number;
  readonly drying: CampaignPlan | null;
  /** Seconds from the end of drying until the stone is cool enough to draw. */
  readonly coolS: number | null;
  readonly draws: DrawForecast | null;
  readonly tank: {
    readonly warmS: number | null;
    /** Minute of the day to begin at; below 0 the evening before. */
    readonly startAtMin: number | null;
  };
  readonly findings: readonly Finding[];
};

/** kJ/kg·K of thermal oil at about 150 °C (from memory). */
const OIL_CP_KJ_KG_K = 2.3;
/** Charging, emptying and settling, beside the fire, s a charge: as the simulated yard takes (teaching value). */
const AROUND_CHARGE_S = 60;
/** Beside the purge: turning the fan up, lighting and weighing the first charge, s (teaching value). */
const LIGHTING_S = 90;

/** The published mixing window of a grade, by its name; UFC 3-250-03 Table 6-8. */
export const publishedWindow = (
  grade: string,
): { readonly grade: keyof typeof MIXING_WINDOWS_F; readonly window: Window } | null => {
  const name = /MC-?(70|250|800)\b/i.exec(grade);
  const key =
    name !== null
      ? (`MC-${name[1]}` as keyof typeof MIXING_WINDOWS_F)
      : /slow.setting|\bC?SS-/i.test(grade)
        ? 'SS-1'
        : /medium.setting|\bC?MS-/i.test(grade)
          ? 'MS-2'
          : null;
  if (key === null) return null;
  const { fromF, toF } = MIXING_WINDOWS_F[key];
  return { grade: key, window: { fromC: celsiusOf(fromF), toC: celsiusOf(toF) } };
};

const mixTempC = (mix: Mix, { targets }: WeightsSheet, at: Conditions): number => {
  const waterShare =
    mix.family === 'emulsion'
      ? Math.max(0, 1 - mix.binder.residueMassPct / 100 - mix.binder.solventMassPct / 100)
      : 0;
  const sg = mix.family === 'emulsion' ? 1.02 : mix.binder.densityAt15KgM3 / 1000;
  const inStoneKg = targets.parts.reduce((sum, part) => sum + part.wetKg - part.dryKg, 0);
  return contactC([
    stoneBody(targets.dryKg, at.aggregateC),
    waterBody(inStoneKg, at.aggregateC),
    waterBody(targets.waterKg, at.waterC),
    {
      massKg: targets.binderKg + targets.antiStripKg,
      cpKjKgK: binderCpKjKgK(waterShare, sg, at.binderC),
      tempC: at.binderC,
    },
  ]);
};

const dryingOf = (
  mix: Mix,
  plant: PlantSpec,
  moisturePct: number,
  dryKg: number,
  at: Conditions,
  factors: Factors,
): CampaignPlan | null => {
  if (mix.drying === undefined) return null;
  const { dryer } = plant;
  const heat = dryingHeat(1, moisturePct, at.stoneC, mix.drying.outC, dryer.efficiency);
  return campaignPlan(
    dryKg,
    mix.drying.chargeKg / (1 + moisturePct / 100),
    heat.firedKj,
    dryer.burnerKw,
    factors.fuelMjPerKg * 1000,
    LIGHTING_S + (dryer.purgeVolumes * dryer.drumVolumeM3) / dryer.fanM3S,
    AROUND_CHARGE_S,
  );
};

const tankOf = (mix: Mix, plant: PlantSpec, at: Conditions): TemperaturesSheet['tank'] => {
  const tank = plant.tanks[mix.family];
  const { oilHeater } = plant;
  if (at.tankC >= mix.windows.tankSetC) return { warmS: 0, startAtMin: at.readyAtMin };
  const waterShare = mix.family === 'emulsion' ? 1 - mix.binder.residueMassPct / 100 : 0;
  const sg = mix.family === 'emulsion' ? 1.02 : tank.densityAt15KgM3 / 1000;
  const warmS = heatUpS(
    {
      massKg: at.tankKg,
      cpKjKgK: binderCpKjKgK(waterShare, sg, (at.tankC + mix.windows.tankSetC) / 2),
      coilWPerK: tank.coilWPerK,
      lossWPerK: tank.lossWPerK,
      oilC: oilHeater.setC,
      airC: at.airC,
      mostW: oilHeater.powerKw * 1000,
    },
    {
      oilKg: oilHeater.oilKg,
      oilCpKjKgK: OIL_CP_KJ_KG_K,
      oilLossWPerK: oilHeater.lossWPerK,
      fromC: at.airC,
    },
    at.tankC,
    mix.windows.tankSetC,
  );
  return { warmS, startAtMin: warmS === null ? null : at.readyAtMin - Math.ceil(warmS / 60) };
};

const minutes = (seconds: number): string => `${Math.ceil(seconds / 60)} min`;

const findingsOf = (
  mix: Mix,
  plant: PlantSpec,
  at: Conditions,
  sheet: Omit<TemperaturesSheet, 'findings'>,
): Finding[] => {
  const found: Finding[] = [];
  const say = (weight: Finding['weight'], words: string) =>
    found.push({ weight, part: 'temperatures', words });
  const { file, viscosity } = sheet.windows;
  const { flashC } = mix.binder;
  if (viscosity !== null && (viscosity.fromC > file.toC || viscosity.toC < file.fromC))
    say(
      'warn',
      `By its viscosity the binder coats at ${figure(viscosity.fromC, 0)}–${figure(viscosity.toC, 0)} °C, which lies outside the window of the mix file, ${file.fromC}–${file.toC} °C: check the two viscosities.`,
    );
  if (mix.windows.tankSetC < file.fromC || mix.windows.tankSetC > file.toC)
    say(
      'warn',
      `The tank is held at ${mix.windows.tankSetC} °C, outside the binder window of ${file.fromC}–${file.toC} °C.`,
    );
  if (at.binderC < file.fromC || at.binderC > file.toC)
    say('warn', `Binder at ${figure(at.binderC, 0)} °C is outside its window, ${file.fromC}–${file.toC} °C.`);
  const { fromC, toC } = mix.windows.aggregateC;
  if (at.aggregateC < fromC || at.aggregateC > toC)
    say(
      'warn',
      `Aggregate at ${figure(at.aggregateC, 0)} °C is outside its window, ${fromC}–${toC} °C: ${at.aggregateC < fromC ? 'warm it first' : 'let it cool first'}.`,
    );
  if (mix.family === 'cutback' && flashC !== null && file.toC >= flashC)
    say(
      'note',
      `The binder window lies above the flash point of ${flashC} °C: vapour that can burn stands over the mixer, so no flame, spark or hot surface may be near, and the extraction runs.`,
    );
  if (mix.family === 'cutback' && sheet.mixC > plant.limits.aggregateMaxC)
    say(
      'stop',
      `The mix would come to ${figure(sheet.mixC, 0)} °C, above the plant's limit of ${plant.limits.aggregateMaxC} °C: draw the aggregate colder.`,
    );
  if (sheet.draws !== null && sheet.draws.batches < at.batches)
    say(
      'warn',
      sheet.draws.endsBy === 'cold'
        ? `After ${sheet.draws.batches} of ${at.batches} batches the stone left in the bin is below ${fromC} °C: dry less at once, or mix faster.`
        : `The dry stone is enough for ${sheet.draws.batches} of ${at.batches} batches: the holding bin takes no more at once.`,
    );
  if (sheet.tank.warmS === null)
    say(
      'warn',
      `The tank never reaches ${mix.windows.tankSetC} °C: its losses are as large as what the coil gives.`,
    );
  else if (sheet.tank.warmS > 0)
    say(
      'note',
      `The tank needs ${minutes(sheet.tank.warmS)} from ${figure(at.tankC, 0)} to ${mix.windows.tankSetC} °C.`,
    );
  return found;
};

/** moisturePct: moisture of the blend in the cold bins, % of dry mass. */
export const temperaturesSheet = (
  mix: Mix,
  plant: PlantSpec,
  weights: WeightsSheet,
  moisturePct: number,
  at: Conditions,
  factors: Factors,
): TemperaturesSheet => {
  const { holdingBin } = plant;
  const batchDryKg = weights.targets.dryKg;
  const drying = dryingOf(
    mix,
    plant,
    moisturePct,
    Math.min(batchDryKg * at.batches, holdingBin.capacityKg),
    at,
    factors,
  );
  const dryKg = drying === null ? 0 : Math.min(drying.dryKg, holdingBin.capacityKg);
  const drawAtC = mix.windows.drawAtC ?? mix.windows.aggregateC.toC;
  const fanTauS = coolingTauS(dryKg, STONE_CP_KJ_KG_K, holdingBin.fanWPerK);
  const sheet = {
    windows: {
      file: mix.windows.binderC,
      viscosity:
        mix.family === 'cutback'
          ? viscosityWindowC(mix.binder.viscosity, factors.mixViscosityFromMm2S, factors.mixViscosityToMm2S)
          : null,
      published: publishedWindow(mix.binder.grade),
    },
    mixC: mixTempC(mix, weights, at),
    drying,
    coolS: mix.drying === undefined ? null : timeToReachS(mix.drying.outC, at.airC, fanTauS, drawAtC),
    draws:
      drying === null
        ? null
        : drawForecast(
            dryKg,
            at.aggregateC,
            at.airC,
            holdingBin.stillWPerK,
            batchDryKg,
            at.batchEveryS,
            mix.windows.aggregateC.fromC,
          ),
    tank: tankOf(mix, plant, at),
  };
  return { ...sheet, findings: findingsOf(mix, plant, at, sheet) };
};
