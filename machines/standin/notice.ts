/** What a watchful person notices at the console: readings that cannot both be true, and equipment that does not obey. */
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import { latchedCauses } from '../charts/flame-interlock/flame-interlock.guards.ts';
import { heaterIsLockedOut } from '../charts/oil-heater/oil-heater.guards.ts';
import { isStepSlow } from '../line/alarms.ts';
import type { ChartId, Line } from '../line/line.types.ts';
import {
  batchValue,
  campaignState,
  chartValue,
  presentMix,
  WEIGHER_IDS,
  weigherState,
} from '../line/lookup.ts';
import { plantView } from '../line/view/plant.ts';

export type Notice = {
  readonly id: string;
  /** Who can help. */
  readonly call: 'fitter' | 'laboratory' | 'supervisor';
  /** It must be so for this long before it is believed, s. */
  readonly forS: number;
  /** The batch is held (or not restarted) while it is so. */
  readonly holds: boolean;
  /** It stays so until it is reset, although its cause is mended. */
  readonly latches?: true;
  readonly is: (line: Line) => boolean;
};

/** A minute into mixing cutback, a sound detector has long shown some vapour. Common practice, no source. */
const SOME_VAPOUR_LEL_PCT = 0.4;
/** With no cutback anywhere a sound detector shows none. Common practice, no source. */
const NO_VAPOUR_LEL_PCT = 1.5;
/** More free water than this in a mix of emulsion is soaked stone, % by eye. Common practice, no source. */
export const SOAKED_PCT = 3;

/** Over a sound batch the hood shows two to three; above this something is wrong. Common practice, no source. */
const SOUND_BATCH_LEL_PCT = 4.5;
/** The dip of a tank and the books of a shift agree this well. Common practice, no source. */
const DIP_SHARE = 0.08;
const DIP_KG = 18;
/** A sample from the truck this dark is no emulsion, which is brown. Common practice, no source. */
const BLACK_SAMPLE_PCT = 60;
const BATCHES_TO_COMPARE = 3;
const BEFORE_BINDER: readonly string[] = ['charging', 'dropping', 'preWetting', 'preWetMixing'];

/** What a tank has lost since the morning by its dip, against what the batches were given by the scale. */
const lotsDisagree = (line: Line): boolean => {
  const { step } = batchValue(line);
  // Looked at while the stone of the next batch is prepared, its binder weighed and still in the bucket.
  if (line.sheets.length < BATCHES_TO_COMPARE || !BEFORE_BINDER.includes(step) || !line.signals.binderWeighed)
    return false;
  const { family } = presentMix(line);
  const tank = plantView(line).tanks.find((one) => one.id === family);
  if (tank === undefined) return false;
  const lostKg = line.scenario.plant.tanks[family].startMassKg - tank.massKg;
  const givenKg = [...line.sheets, ...(line.batch === null ? [] : [line.batch])]
    .flatMap((sheet) => sheet.parts)
    .reduce((sum, part) => sum + (part.material === family ? part.weighedKg : 0), 0);
  return Math.abs(lostKg - givenKg) > Math.max(DIP_KG, DIP_SHARE * givenKg);
};

const stands = (line: Line, alarm: string): boolean =>
  ['unacknowledged', 'acknowledged'].includes(
    alarmState(chartValue(line, `alarm:${alarm}` as ChartId) as never),
  );

export const NOTICES: readonly Notice[] = [
  {
    id: 'extraction lost',
    call: 'fitter',
    forS: 1,
    holds: true,
    is: (line) => !line.signals.extractionProved,
  },
  { id: 'detector dead', call: 'fitter', forS: 1, holds: true, is: (line) => !line.signals.detectorOk },
  {
    id: 'vapour reads nothing over cutback',
    call: 'fitter',
    forS: 15,
    holds: true,
    is: (line) =>
      line.signals.cutbackInMixer &&
      presentMix(line).family === 'cutback' &&
      (line.batch?.mixedTicks ?? 0) > 450 &&
      line.readings.vapourLelPct < SOME_VAPOUR_LEL_PCT,
  },
  {
    id: 'vapour reads something over nothing',
    call: 'fitter',
    forS: 90,
    holds: true,
    is: (line) =>
      !line.signals.cutbackInMixer &&
      !line.signals.cutbackInBucket &&
      line.readings.vapourLelPct > NO_VAPOUR_LEL_PCT,
  },
  {
    id: 'flame seen that no fuel explains',
    call: 'fitter',
    forS: 8,
    holds: false,
    is: (line) => line.signals.flameSeen && line.signals.fuelShut,
  },
  {
    id: 'burner locked out',
    call: 'fitter',
    forS: 1,
    holds: false,
    latches: true,
    is: (line) => line.signals.burnerLockedOut,
  },
  {
    id: 'binder valve does not close',
    call: 'fitter',
    forS: 4,
    holds: false,
    is: (line) => !line.signals.binderValveShut && !line.signals.binderValveAskedOpen,
  },
  {
    id: 'fuel valve does not close',
    call: 'fitter',
    forS: 4,
    holds: false,
    is: (line) => !line.signals.fuelShut && !line.signals.fuelAskedOpen,
  },
  {
    id: 'a scale does not gain',
    call: 'fitter',
    forS: 1,
    holds: true,
    is: (line) => WEIGHER_IDS.some((id) => weigherState(line, id) === 'stalled'),
  },
  { id: 'a step takes too long', call: 'fitter', forS: 5, holds: false, is: isStepSlow },
  {
    id: 'oil heater locked out',
    call: 'fitter',
    forS: 2,
    holds: false,
    latches: true,
    is: (line) => heaterIsLockedOut(line.charts.oilHeater?.value as never),
  },
  {
    id: 'a tank asks for heat and no oil moves',
    call: 'fitter',
    forS: 20,
    holds: false,
    is: (line) => line.outputs.oilPump && !line.signals.oilFlowing,
  },
  {
    id: 'cutback at its limit, or its thermometer not to be trusted',
    call: 'fitter',
    forS: 2,
    holds: false,
    is: (line) => stands(line, 'cutback-hot'),
  },
  {
    id: 'emulsion close to freezing',
    call: 'laboratory',
    forS: 2,
    holds: false,
    is: (line) => stands(line, 'emulsion-cold'),
  },
  {
    id: 'emulsion at its limit',
    call: 'laboratory',
    forS: 2,
    holds: false,
    is: (line) => stands(line, 'emulsion-hot'),
  },
  {
    id: 'vapour above what a sound batch gives',
    call: 'fitter',
    forS: 5,
    holds: true,
    is: (line) => line.signals.cutbackInMixer && line.readings.vapourLelPct > SOUND_BATCH_LEL_PCT,
  },
  {
    id: 'what the truck brings is not what its ticket says',
    call: 'laboratory',
    forS: 2,
    holds: false,
    is: (line) =>
      line.tankMemos.emulsion.delivery !== null && line.readings.sightTruckBlackPct > BLACK_SAMPLE_PCT,
  },
  {
    id: 'it is not known what is in the emulsion tank',
    call: 'supervisor',
    forS: 1,
    holds: false,
    is: (line) => line.tankMemos.emulsion.holds === 'not known',
  },
  {
    id: 'it is not known what the emulsion tank was given',
    call: 'laboratory',
    forS: 1,
    holds: false,
    is: (line) => line.tankMemos.emulsion.holds === 'not known',
  },
  {
    id: 'supply lost',
    call: 'supervisor',
    forS: 1,
    holds: false,
    is: (line) =>
      !line.signals.powerOk || latchedCauses(chartValue(line, 'interlock') as never).includes('FT-11'),
  },
  {
    id: 'the tank lost more than the batches took',
    call: 'fitter',
    forS: 2,
    holds: true,
    latches: true,
    is: lotsDisagree,
  },
  {
    id: 'aggregate in the mill too hot for cutback',
    call: 'fitter',
    forS: 5,
    holds: true,
    is: (line) =>
      presentMix(line).family === 'cutback' &&
      line.signals.aggregateOverLimit &&
      batchValue(line).step === 'waitingForBinder',
  },
  {
    id: 'mix is soaked',
    call: 'laboratory',
    forS: 1,
    holds: true,
    is: (line) =>
      batchValue(line).step === 'looking' &&
      presentMix(line).family === 'emulsion' &&
      line.readings.sightFreeWaterPct > SOAKED_PCT,
  },
  {
    id: 'dried stone does not arrive in the holding bin',
    call: 'fitter',
    forS: 2,
    holds: false,
    is: (line) =>
      ['charging', 'drying', 'puttingOut'].includes(campaignState(line)) &&
      (line.campaign?.charges ?? 0) > 0 &&
      line.readings.holdingBinKg < 200 * (line.campaign?.charges ?? 0),
  },
];
