/** Line views for looking at the drawing, the ribbon and the charts without a running line. */
import type { LineView } from '../../machines/line/view.types.ts';
import { BASE, changed, NOW_MS, order, weight } from './fixture-base.ts';

export { batchBlocks } from './fixture-base.ts';

export const idle: LineView = BASE;

export const emulsionMixing: LineView = changed({
  readings: {
    hopperKg: 412,
    bucketKg: 31.6,
    bucketValveShut: 0,
    mixerMotorA: 61.5,
    mixC: 17.8,
    emulsionTankC: 58.2,
    rainMmH: 1.4,
  },
  outputs: {
    bin2Gate: 'full',
    bucketValve: true,
    pugMill: true,
    emulsionStir: true,
    oilPump: true,
  },
  plant: { mixerText: 'emulsion mix, binder going in 0:11' },
  view: {
    orders: [order('emulsion', 1)],
    weights: [
      weight('hopper', 'Aggregate', 412, 712, 'filling from grit, full'),
      weight('bucket', 'Binder', 31.6, 52.4, 'emptying'),
    ],
  },
});

const waiting = (id: string, text: string, wanted: string) => ({
  id,
  text,
  wanted,
  standing: 'unmet' as const,
});

export const cutbackCooling: LineView = changed({
  readings: {
    holdingBinKg: 7420,
    holdingBinC: 71.4,
    drumAggregateC: 96,
    drumExhaustC: 88,
    drumAirM3S: 4.2,
    bucketKg: 45,
  },
  outputs: { coolingFan: true, drumFan: true, cutbackCoil: true, oilPump: true },
  plant: {
    burnerText: 'Purging the drum after the flame',
    purgeVolumes: 2.1,
    mixerText: 'empty',
  },
  view: {
    orders: [order('cutback', 2)],
    now: { ...BASE.now, waitingFor: [waiting('aggregate', 'Aggregate 71.4 °C', '25–65 °C')] },
    campaign: { n: 1, step: 'cooling', batchesWorth: 10, driedKg: 7420, wantedKg: 7400 },
    weights: [weight('bucket', 'Binder', 45, 45.2, 'weighed')],
    temps: [
      {
        id: 'holding',
        label: 'Aggregate in holding bin',
        valueC: 71.4,
        fromC: 25,
        toC: 65,
        scaleC: [0, 150],
        standing: 'unmet',
        untilInS: 130,
        untilOutS: null,
      },
    ],
    interlock: {
      ...BASE.interlock,
      held: [
        {
          element: 'Binder valve to the pug mill',
          because: 'Hot aggregate drives solvent off faster than the hood clears it',
        },
      ],
    },
  },
});

export const drying: LineView = changed({
  readings: {
    hopperKg: 618,
    drumAggregateC: 118.5,
    drumExhaustC: 142,
    drumAirM3S: 5.6,
    flameSeen: 1,
    fuelValveShut: 0,
    holdingBinKg: 2980,
    holdingBinC: 104.6,
  },
  outputs: {
    bin1Gate: 'dribble',
    hopperTo: 'dryer',
    drumTurn: true,
    drumFan: true,
    burnerMain: 'high',
    drumDischarge: true,
    oilPump: true,
  },
  plant: { burnerText: 'main flame, high fire' },
  view: {
    orders: [order('cutback', 2)],
    campaign: { n: 1, step: 'drying', batchesWorth: 10, driedKg: 2980, wantedKg: 7400 },
    weights: [weight('hopper', 'Aggregate', 618, 760, 'emptying into the dryer')],
  },
});

export const tripped: LineView = changed({
  readings: {
    holdingBinKg: 3120,
    holdingBinC: 52.3,
    hoodFlowM3S: 0,
    vapourLelPct: 21.6,
    mixC: 61.2,
    bucketKg: 12.4,
    mixerMotorA: 74,
    bin2LevelPct: 41,
  },
  outputs: { hoodFan: true, pugMill: true, oilPump: false },
  plant: {
    mixerText: 'cutback mix, stopped in the middle of mixing 0:48',
    burnerText: 'locked out by the trip',
    faults: [
      { target: 'hoodFanStopped', fault: 'on' },
      { target: 'bin2LevelPct', fault: 'stuck' },
      { target: 'holdingBinC', fault: 'drift' },
    ],
    bays: Array.from({ length: 6 }, (_, n) => ({
      id: n + 1,
      name: n === 3 ? 'Bay 4, covered, emulsion only' : `Bay ${n + 1}`,
      massKg: n * 9_700,
      capacityKg: 60_000,
    })),
  },
  view: {
    orders: [order('cutback', 2)],
    interlock: {
      ...BASE.interlock,
      tripped: true,
      tripCauses: ['Extraction lost while solvent-bearing binder was in the pug mill', 'Vapour 21.6 % LEL'],
    },
    alarms: [
      {
        id: 'vapour-high',
        priority: 'high',
        text: 'Vapour at the hood above 20 % LEL',
        action: 'Stay back. Keep every flame out. Let the hood clear.',
        state: 'unacknowledged',
        sinceMs: NOW_MS - 20_000,
        until: null,
      },
    ],
  },
});

export const views = { idle, emulsionMixing, cutbackCooling, drying, tripped } as const;
