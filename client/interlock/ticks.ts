/** What a person can tick on the page that stands alone, and the signals that follow from it. */
import { SIGNALS, type Signal, type Signals } from '../../machines/charts/signals.ts';
import type { Outputs } from '../../machines/field/outputs.ts';

export const TICK_GROUPS = [
  {
    title: 'Dryer',
    ticks: {
      strayFlame: 'The scanner sees a flame, whatever the burner does',
      fuelNotShut: 'The fuel valve is not proved shut',
      scannerBlind: 'The scanner sees no flame, whatever burns',
      drumAirLost: 'The dryer fan moves no air',
    },
  },
  {
    title: 'Hood and vapour',
    ticks: {
      extractionLost: 'Hood extraction not proved',
      vapourRaised: 'Vapour at the hood at the warning level',
      vapourHigh: 'Vapour at the hood at the trip level',
      detectorFault: 'Vapour detector fault',
      outOfCalibration: 'Vapour detector out of calibration',
    },
  },
  {
    title: 'Binder and aggregate',
    ticks: {
      bucketCutback: 'Cutback in the weigh bucket',
      mixerCutback: 'Cutback mix in the pug mill',
      valveStuck: 'The binder valve is not proved shut',
      aggregateHot: 'Aggregate above its limit',
      binderOutOfWindow: 'Cutback outside its window',
      binderOverLimit: 'Cutback above the temperature it may not pass',
    },
  },
  {
    title: 'People and supply',
    ticks: {
      emergencyStop: 'Emergency stop pressed',
      supplyLost: 'Supply to the plant lost',
      hotWork: 'Hot work permit open',
      cutbackUnknown: 'Contents of the cutback tank not confirmed',
      emulsionUnknown: 'Contents of the emulsion tank not confirmed',
    },
  },
  {
    title: 'Cutback tank',
    ticks: {
      coilBare: 'Too little cutback above the heating surface',
      oilStill: 'Thermal oil does not flow',
      delivery: 'A delivery into the tank is under way',
      ventHigh: 'Vapour at the vents at the limit',
      water: 'Water suspected in the tank',
    },
  },
] as const;

type KeysOf<T> = T extends { readonly ticks: infer U } ? keyof U : never;
export type Tick = KeysOf<(typeof TICK_GROUPS)[number]>;
export type Ticked = ReadonlySet<Tick>;

const NOTHING = Object.fromEntries(Object.keys(SIGNALS).map((name) => [name, false])) as Signals;

/** Everything the charts may hear, from what is ticked and what the gate has let through. */
export const signalsFrom = (
  ticked: Ticked,
  outputs: Outputs,
  purged: boolean,
  told: { readonly flamePermitted: boolean; readonly tripped: boolean },
): Signals => {
  const is = (tick: Tick): boolean => ticked.has(tick);
  const fuelOpen = outputs.burnerPilot || outputs.burnerMain !== 'shut';
  const safe: Partial<Record<Signal, boolean>> = {
    drumFanProved: outputs.drumFan && !is('drumAirLost'),
    purged,
    flameSeen: is('strayFlame') || (fuelOpen && !is('scannerBlind')),
    fuelShut: !fuelOpen && !is('fuelNotShut'),
    fuelAskedOpen: fuelOpen,
    extractionProved: !is('extractionLost'),
    vapourLow: !is('vapourRaised') && !is('vapourHigh'),
    vapourHigh: is('vapourHigh'),
    detectorOk: !is('detectorFault'),
    detectorCalibrated: !is('outOfCalibration'),
    aggregateOverLimit: is('aggregateHot'),
    cutbackInWindow: !is('binderOutOfWindow') && !is('binderOverLimit'),
    cutbackOverLimit: is('binderOverLimit'),
    cutbackInBucket: is('bucketCutback'),
    cutbackInMixer: is('mixerCutback'),
    binderValveShut: !outputs.bucketValve && !is('valveStuck'),
    binderValveAskedOpen: outputs.bucketValve,
    emergencyStop: is('emergencyStop'),
    powerOk: !is('supplyLost'),
    hotWorkOpen: is('hotWork'),
    cutbackKnown: !is('cutbackUnknown') && !is('delivery'),
    emulsionKnown: !is('emulsionUnknown'),
    cutbackCovered: !is('coilBare'),
    emulsionCovered: true,
    oilFlowing: !is('oilStill'),
    cutbackDelivery: is('delivery'),
    cutbackVentHigh: is('ventHigh'),
    cutbackDry: !is('water'),
    emulsionDry: true,
    ...told,
  };
  return { ...NOTHING, ...safe };
};
