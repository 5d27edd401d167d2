/** The alarms of the line: when each stands, how urgent it is, and what to do. */
import type { Step } from '../charts/batch/batch.guards.ts';
import type { CampaignState } from '../charts/campaign/campaign.machine.ts';
import { regionState } from '../charts/flame-interlock/flame-interlock.guards.ts';
import { heaterIsLockedOut } from '../charts/oil-heater/oil-heater.guards.ts';
import type { Line } from './line.types.ts';
import { accountGrams, batchValue, campaignState, dryingMix, presentMix } from './lookup.ts';
import { inhibitsInForce, isProofFailed, isProofOverdue } from './maintenance.ts';
import { WATER_FOUND_MM } from './tank-care.ts';
import { drumFlowLies } from './watch.ts';

/** A delivery this long past its time is asked after, ticks. Common practice, no source. */
const DELIVERY_LATE_TICKS = 3000;

export type AlarmDefinition = {
  readonly id: string;
  readonly priority: 'high' | 'medium' | 'low';
  readonly text: string;
  readonly action: string;
  /** Pure in the line; the same reading and signals give the same answer. */
  readonly stands: (line: Line) => boolean;
  /** It protects people: never shelved, never out of service. */
  readonly protectsPeople?: true;
  /** Suppressed by design while this holds: another alarm says more. */
  readonly meaningless?: (line: Line) => boolean;
};

/** Common practice, no source, both. */
const LOW_BIN_PCT = 15;
const FREEZING_EMULSION_C = 5;

/** Longest a step or stage takes on a sound plant, s. Common practice, no source. */
const STEP_LIMIT_S: { readonly [S in Step]?: number } = {
  charging: 240,
  dropping: 75,
  preWetting: 150,
  antiStripping: 120,
  addingBinder: 120,
  discharging: 120,
  dumping: 240,
};
const STAGE_LIMIT_S: { readonly [S in CampaignState]?: number } = {
  lighting: 180,
  charging: 240,
  drying: 900,
  emptying: 180,
  puttingOut: 180,
};

const over = (limitS: number | undefined, ticks: number): boolean =>
  limitS !== undefined && ticks > limitS * 10;

export const isStepSlow = (line: Line): boolean => {
  const { procedure, step } = batchValue(line);
  return procedure === 'running' && over(STEP_LIMIT_S[step], line.tick - line.stepTick);
};

const isStageSlow = (line: Line): boolean =>
  over(STAGE_LIMIT_S[campaignState(line)], line.tick - line.stageTick);

const cutbackAbout = (line: Line): boolean => line.signals.cutbackInBucket || line.signals.cutbackInMixer;

const binLow = (n: 1 | 2 | 3 | 4): AlarmDefinition => ({
  id: `bin-${n}-low`,
  priority: 'low',
  text: `Bin ${n} is running low`,
  action: 'Have the loader fill it before the next batch.',
  stands: (line) => n <= line.scenario.plant.bins.length && line.readings[`bin${n}LevelPct`] < LOW_BIN_PCT,
});

export const ALARMS: readonly AlarmDefinition[] = [
  {
    id: 'interlock-tripped',
    protectsPeople: true,
    priority: 'high',
    text: 'Flame interlock tripped',
    action: 'Keep away from the mixer. Find the cause, clear it, then reset the trip.',
    stands: (line) => line.signals.tripped,
  },
  {
    id: 'vapour-high',
    protectsPeople: true,
    priority: 'high',
    text: 'Vapour at the hood at the trip level',
    action: 'No sparks. Leave extraction on, keep away until it is below the warning level.',
    stands: (line) => line.signals.vapourHigh,
  },
  {
    id: 'vapour-raised',
    priority: 'medium',
    text: 'Vapour at the hood above the warning level',
    action: 'Check extraction and the aggregate temperature. Binder is held back until it is low.',
    stands: (line) => !line.signals.vapourLow,
    meaningless: (line) => line.signals.vapourHigh,
  },
  {
    id: 'extraction-lost',
    protectsPeople: true,
    priority: 'high',
    text: 'Hood extraction is not proved',
    action: 'Check the hood fan and its duct. Keep people away while there is cutback in the mixer.',
    stands: (line) => !line.signals.extractionProved && cutbackAbout(line),
  },
  {
    id: 'vapour-detector',
    protectsPeople: true,
    priority: 'high',
    text: 'Vapour detector fault',
    action: 'Treat the hood as full of vapour. Have the detector mended before cutback is used.',
    stands: (line) => !line.signals.detectorOk,
  },
  {
    id: 'emergency-stop',
    protectsPeople: true,
    priority: 'high',
    text: 'Emergency stop pressed',
    action: 'Make it safe, release the button, then reset the trip.',
    stands: (line) => line.signals.emergencyStop,
  },
  {
    id: 'burner-locked-out',
    priority: 'high',
    text: 'Burner locked out',
    action: 'Find out why before resetting; never reset twice in a row.',
    stands: (line) => line.signals.burnerLockedOut,
  },
  {
    id: 'drum-hot',
    protectsPeople: true,
    priority: 'high',
    text: 'Aggregate in the drum is far too hot',
    action: 'The burner goes out by itself. Empty the drum, and find out why it did not move on.',
    stands: (line) => line.signals.drumTooHot,
  },
  {
    id: 'drum-flow-meter',
    priority: 'medium',
    text: 'The dryer’s flow meter shows air with its fan stopped',
    action: 'No purge counts and no burner lights. Have the meter mended, then record the proof of FB-01.',
    stands: (line) => drumFlowLies(line.watch),
  },
  {
    id: 'supply-lost',
    protectsPeople: true,
    priority: 'high',
    text: 'Supply to the plant lost',
    action: 'Everything has stopped and shut. Wait for the supply, walk the plant, then reset the trip.',
    stands: (line) => !line.signals.powerOk,
  },
  {
    id: 'fuel-unlit',
    protectsPeople: true,
    priority: 'high',
    text: 'Dryer fuel open and no flame seen',
    action: 'Close the fuel hand valve. Keep the dryer fan on; do not relight before it is purged.',
    stands: (line) => regionState(line.charts.interlock?.value as never, 'dryer') === 'fuelUnlit',
  },
  {
    id: 'calibration-out',
    protectsPeople: true,
    priority: 'medium',
    text: 'Vapour detector out of calibration',
    action:
      'Calibrate it with test gas and record it as the proof test of FI-20; until then no cutback, no flame.',
    stands: (line) => !line.signals.detectorCalibrated,
  },
  {
    id: 'hot-work-over',
    protectsPeople: true,
    priority: 'high',
    text: 'Hot work permit has run out',
    action: 'See that the work has stopped and nothing glows, then close the permit.',
    stands: (line) => line.maintenance.permit !== null && line.tick >= line.maintenance.permit.untilTick,
  },
  ...(['emulsion', 'cutback'] as const).flatMap((tank): AlarmDefinition[] => [
    {
      id: `${tank}-unconfirmed`,
      protectsPeople: true,
      priority: 'high',
      text: `What is in the ${tank} tank is not confirmed`,
      action:
        'Do not heat it or draw from it. Confirm the delivery, or have a supervisor identify the contents.',
      stands: (line) => line.tankMemos[tank].holds !== tank,
    },
    {
      id: `${tank}-foaming`,
      protectsPeople: true,
      priority: 'high',
      text: `The ${tank} tank has foamed: there is water in it`,
      action:
        'Heating is off. Keep people away from the vents; draw the water off cold and prove the tank dry.',
      stands: (line) => line.tankMemos[tank].foamed,
    },
    {
      id: `${tank}-delivery-long`,
      priority: 'medium',
      text: `The delivery into the ${tank} tank should be over`,
      action: 'Look at the dip, uncouple the truck, and end the delivery here.',
      stands: (line) => {
        const { delivery } = line.tankMemos[tank];
        return delivery !== null && line.tick > delivery.doneTick + DELIVERY_LATE_TICKS;
      },
    },
  ]),
  {
    id: 'vent-vapour',
    protectsPeople: true,
    priority: 'high',
    text: 'Vapour at the tank vents',
    action: 'No sparks near the tanks. Heating is held; look for an overheated or foaming tank.',
    stands: (line) => line.signals.cutbackVentHigh || line.signals.emulsionVentHigh,
  },
  {
    id: 'water-in-cutback',
    priority: 'medium',
    text: 'Water at the bottom of the cutback tank',
    action: 'Draw it off cold before the tank is heated above 95 °C.',
    stands: (line) => line.readings.cutbackWaterMm >= WATER_FOUND_MM,
  },
  {
    id: 'proof-failed',
    protectsPeople: true,
    priority: 'high',
    text: 'A safeguard failed its proof test',
    action: 'Do not rely on it. Have it mended and prove it again before the work it guards.',
    stands: isProofFailed,
  },
  {
    id: 'proof-overdue',
    priority: 'low',
    text: 'A proof test of the interlocks is overdue',
    action: 'Prove the safeguard and record the test, or plan it with the supervisor.',
    stands: isProofOverdue,
  },
  {
    id: 'cause-inhibited',
    protectsPeople: true,
    priority: 'medium',
    text: 'A cause is inhibited for testing',
    action: 'Watch in its place. Lift the inhibit as soon as the test is done.',
    stands: (line) => inhibitsInForce(line).length > 0,
  },
  {
    id: 'weight-out',
    priority: 'medium',
    text: 'A weight is outside its tolerance',
    action: 'Top up, have a supervisor accept it, or dump.',
    stands: (line) => line.signals.weightOutOfTolerance,
  },
  {
    id: 'aggregate-hot',
    priority: 'medium',
    text: 'Aggregate above its limit for cutback',
    action: 'Leave it to cool; the binder valve stays shut until it is within the limit.',
    stands: (line) =>
      line.signals.aggregateOverLimit &&
      presentMix(line).family === 'cutback' &&
      accountGrams(line, 'mixer') > 0,
  },
  {
    id: 'aggregate-cooling-out',
    priority: 'medium',
    text: 'Dry aggregate is about to fall out of its window',
    action: 'Use it now. Once it is too cold: stop the batch, run the holding bin out and dry again.',
    stands: (line) => {
      const mix = dryingMix(line);
      if (mix === null || line.campaign === null) return false;
      return line.readings.holdingBinKg > 100 && line.readings.holdingBinC < mix.windows.aggregateC.fromC + 2;
    },
  },
  {
    id: 'binder-out-of-window',
    priority: 'medium',
    text: 'Binder is outside its working window',
    action: 'Check the tank heating; the batch waits until it is inside.',
    stands: (line) => batchValue(line).step !== 'ready' && !line.signals.binderInWindow,
  },
  {
    id: 'step-slow',
    priority: 'medium',
    text: 'This step takes longer than it should',
    action: 'Look: a gate stuck, a bin empty, a scale off its zero? Mend it, zero the scale, or hold.',
    stands: (line) => isStepSlow(line) || isStageSlow(line),
  },
  {
    id: 'mixed-too-long',
    priority: 'medium',
    text: 'This batch has been mixed too long',
    action: 'Look now: discharge it, or dump it if the coating has come off.',
    stands: (line) => line.batch !== null && line.batch.mixedTicks > presentMix(line).times.longestMixS * 10,
  },
  {
    id: 'emulsion-cold',
    priority: 'high',
    text: 'Emulsion is close to freezing',
    action: 'Warm the tank now: frozen emulsion is spoilt for good.',
    stands: (line) => line.readings.emulsionTankC < FREEZING_EMULSION_C,
  },
  {
    id: 'emulsion-hot',
    priority: 'high',
    text: 'Emulsion at its highest temperature, or its thermometer not to be trusted',
    action: 'Turn its heating off. Above 85 °C emulsion breaks in the tank.',
    stands: (line) => line.signals.emulsionOverLimit,
  },
  {
    id: 'cutback-hot',
    protectsPeople: true,
    priority: 'high',
    text: 'Cutback above its working window, or its thermometer not to be trusted',
    action: 'Turn its heating off. Keep every flame and spark away from the tank vents.',
    stands: (line) => line.signals.cutbackOverLimit,
  },
  {
    id: 'oil-heater-locked-out',
    priority: 'medium',
    text: 'Thermal-oil heater locked out',
    action: 'Find out why before resetting it; the tanks cool slowly meanwhile.',
    stands: (line) => heaterIsLockedOut(line.charts.oilHeater?.value as never),
  },
  binLow(1),
  binLow(2),
  binLow(3),
  binLow(4),
  {
    id: 'bay-full',
    priority: 'medium',
    text: 'The bay of this order is full',
    action: 'Choose an order for another bay, or have mix drawn from this one.',
    stands: (line) => {
      const order = line.orders[line.order - 1];
      const bay = line.scenario.plant.bays.find((one) => one.id === order?.bay);
      return bay !== undefined && bayGrams(line, bay.id) >= bay.capacityT * 1e6;
    },
  },
];

export const bayGrams = (line: Line, bay: number): number =>
  line.lots.filter((lot) => lot.bay === bay).reduce((sum, lot) => sum + lot.grams, 0);
