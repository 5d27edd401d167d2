/** A shift half over, from which the views of the drawing's fixture are made: readings, plant, lots and ribbon. */
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import type { Readings } from '../../machines/field/tags.ts';
import type {
  LineView,
  LotView,
  PlantView,
  RibbonBlock,
  RibbonMark,
} from '../../machines/line/view.types.ts';

const READINGS: Readings = {
  bin1LevelPct: 62,
  bin2LevelPct: 41,
  bin3LevelPct: 78,
  bin4LevelPct: 55,
  hopperKg: 0,
  hopperC: 14.2,
  drumAggregateC: 21.5,
  drumExhaustC: 24,
  drumAirM3S: 0,
  flameSeen: 0,
  fuelValveShut: 1,
  holdingBinKg: 0,
  holdingBinC: 18.3,
  emulsionTankC: 58.2,
  emulsionDipMm: 980,
  cutbackTankC: 84,
  cutbackDipMm: 1120,
  oilC: 184.5,
  oilFlowing: 1,
  oilFlameSeen: 1,
  bucketKg: 0,
  bucketValveShut: 1,
  waterMeterL: 1182.4,
  antiStripMeterKg: 3.42,
  mixerMotorA: 0,
  mixC: 16.1,
  hoodFlowM3S: 1.8,
  vapourLelPct: 0.4,
  vapourDetectorOk: 1,
  ventLelPct: 2.5,
  cutbackWaterMm: 0,
  powerOk: 1,
  emergencyStop: 0,
  ambientC: 12.4,
  rainMmH: 0,
  sightCoatedPct: 0,
  sightBlackPct: 0,
  sightTruckBlackPct: 0,
  sightFreeWaterPct: 0,
};

const PLANT: PlantView = {
  readings: READINGS,
  outputs: { ...AT_REST, oilPump: true },
  faults: [],
  bins: [
    { name: 'chips', size: '6/10', levelPct: 62, moisturePct: 2.1 },
    { name: 'grit', size: '2/6', levelPct: 41, moisturePct: 3.4 },
    { name: 'fines', size: '0/2', levelPct: 78, moisturePct: 5 },
    { name: 'washed sand', size: '0/4', levelPct: 55, moisturePct: 4.2 },
  ],
  tanks: [
    {
      id: 'emulsion',
      grade: 'CMS-2 patching',
      massKg: 5120,
      litres: 5088,
      levelShare: 0.58,
      coilCoverMm: 380,
      heating: 'at set',
      setC: 60,
    },
    {
      id: 'cutback',
      grade: 'MC-800',
      massKg: 6830,
      litres: 7310,
      levelShare: 0.71,
      coilCoverMm: 410,
      heating: 'heating',
      setC: 85,
    },
  ],
  bays: [
    { id: 1, name: 'Bay 1', massKg: 22_400, capacityKg: 60_000 },
    { id: 2, name: 'Bay 2', massKg: 38_400, capacityKg: 60_000 },
    { id: 3, name: 'Bay 3', massKg: 0, capacityKg: 60_000 },
  ],
  wasteKg: 748,
  mixerText: 'empty',
  burnerText: 'burner off',
  purgeVolumes: 0,
  purgeVolumesNeeded: 5,
  limits: {
    vapourWarnLelPct: 10,
    vapourTripLelPct: 20,
    aggregateMaxC: 65,
    holdingBinKg: 13_000,
    drawC: null,
  },
};

const lot = (
  id: string,
  family: 'emulsion' | 'cutback',
  batches: readonly number[],
  state: LotView['state'],
  samples: LotView['samples'],
): LotView => ({
  id,
  mix: family === 'emulsion' ? 'patch-emulsion' : 'patch-cutback',
  family,
  state,
  massKg: batches.length * 748,
  ofKg: 10_000,
  batches,
  bay: family === 'emulsion' ? 1 : 2,
  samples,
});

type Step = readonly [step: string, seconds: number];

const EMULSION_STEPS: readonly Step[] = [
  ['charge', 74],
  ['wet', 82],
  ['binder', 24],
  ['mix', 62],
  ['look', 26],
  ['discharge', 34],
];
const CUTBACK_STEPS: readonly Step[] = [
  ['charge', 58],
  ['binder', 31],
  ['mix', 92],
  ['look', 28],
  ['discharge', 36],
];

/** Blocks of `count` batches one after another, from a moment on; every tenth is held a while. */
export const batchBlocks = (
  fromMs: number,
  firstBatch: number,
  count: number,
  steps: readonly Step[],
  gapS = 9,
): readonly RibbonBlock[] => {
  const blocks: RibbonBlock[] = [];
  let atMs = fromMs;
  for (let n = 0; n < count; n++) {
    for (const [step, seconds] of steps) {
      blocks.push({ fromMs: atMs, toMs: atMs + seconds * 1000, step, batch: firstBatch + n });
      atMs += seconds * 1000;
      if (step === 'mix' && n % 10 === 6) {
        blocks.push({ fromMs: atMs, toMs: atMs + 140_000, step: 'hold', batch: firstBatch + n });
        atMs += 140_000;
      }
    }
    atMs += gapS * 1000;
  }
  return blocks;
};

const endOf = (blocks: readonly RibbonBlock[]): number => blocks.at(-1)?.toMs ?? 0;

const morning = batchBlocks(9 * 60_000, 1, 27, EMULSION_STEPS);
const campaignFrom = endOf(morning) + 300_000;
const campaign: readonly RibbonBlock[] = [
  { fromMs: campaignFrom, toMs: campaignFrom + 60_000, step: 'purge', batch: null },
  { fromMs: campaignFrom + 60_000, toMs: campaignFrom + 47 * 60_000, step: 'dry', batch: null },
  { fromMs: campaignFrom + 47 * 60_000, toMs: campaignFrom + 49 * 60_000, step: 'purge', batch: null },
  { fromMs: campaignFrom + 49 * 60_000, toMs: campaignFrom + 92 * 60_000, step: 'cool', batch: null },
];
const afternoon = batchBlocks(endOf(campaign) + 40_000, 28, 9, CUTBACK_STEPS);

const blocks: readonly RibbonBlock[] = [
  ...morning,
  ...campaign,
  ...afternoon,
  { fromMs: endOf(afternoon) + 20_000, toMs: null, step: 'charge', batch: 37 },
];

export const NOW_MS = endOf(afternoon) + 64_000;

const marks: readonly RibbonMark[] = [
  { atMs: 2 * 60_000, mark: 'person', text: 'A. Reed took the controls' },
  { atMs: 9 * 60_000, mark: 'lot opened', text: 'Lot 111 opened, emulsion patch mix' },
  { atMs: 9 * 60_000, mark: 'person', text: 'A. Reed: start' },
  { atMs: 33 * 60_000, mark: 'sample', text: 'Sample 1 of lot 111 taken' },
  { atMs: 51 * 60_000, mark: 'alarm', text: 'Chips bin low' },
  { atMs: 70 * 60_000, mark: 'lot closed', text: 'Lot 111 closed at 10.5 t' },
  { atMs: 71 * 60_000, mark: 'lot opened', text: 'Lot 112 opened, emulsion patch mix' },
  { atMs: 96 * 60_000, mark: 'sample', text: 'Sample 1 of lot 112 taken' },
  { atMs: campaignFrom - 200_000, mark: 'refusal', text: 'Light burner refused: cautions not acknowledged' },
  { atMs: campaignFrom - 120_000, mark: 'person', text: 'A. Reed acknowledged the cautions' },
  { atMs: campaignFrom + 30 * 60_000, mark: 'alarm', text: 'Exhaust hot' },
  { atMs: endOf(campaign) + 40_000, mark: 'lot opened', text: 'Lot 113 opened, cutback patch mix' },
  { atMs: endOf(afternoon) - 300_000, mark: 'trip', text: 'Tripped: extraction lost' },
  { atMs: endOf(afternoon) - 260_000, mark: 'person', text: 'M. Oakes: reset' },
];

export const BASE: LineView = {
  shift: {
    id: 'shift-14',
    name: 'Shift 14',
    plantName: 'Demo yard',
    date: '2026-03-12',
    startsAt: '06:00',
    hours: 8,
    atMs: NOW_MS,
    ended: false,
    batchesDone: 36,
    madeKg: 36 * 748,
  },
  now: {
    over: 'No batch running',
    title: 'The line is idle',
    instruction: 'Choose an order and start.',
    countdown: null,
    waitingFor: [],
    actions: [],
    steps: [],
    procedure: 'idle',
    cautions: null,
  },
  campaign: null,
  weights: [],
  temps: [],
  plant: PLANT,
  interlock: { tripped: false, tripCauses: [], resetBecause: [], held: [], binder: [], flame: [] },
  causes: { holding: [], latched: [] },
  maintenance: { proofs: [], overdue: 0, banner: [] },
  permits: [],
  tanks: [],
  alarms: [],
  batches: [],
  lots: [
    lot(
      '111',
      'emulsion',
      Array.from({ length: 14 }, (_, n) => n + 1),
      'closed',
      [{ n: 1, atKg: 3400, state: 'taken' }],
    ),
    lot(
      '112',
      'emulsion',
      Array.from({ length: 13 }, (_, n) => n + 15),
      'closed short',
      [],
    ),
    lot(
      '113',
      'cutback',
      Array.from({ length: 9 }, (_, n) => n + 28),
      'open',
      [{ n: 1, atKg: null, state: 'due' }],
    ),
  ],
  orders: [],
  seat: { holder: null, askedBy: null, standIn: null },
  ribbon: { blocks, marks },
  charts: [],
  refusals: [],
};

type Change = {
  readonly readings?: Partial<Readings>;
  readonly outputs?: Partial<Outputs>;
  readonly plant?: Partial<PlantView>;
  readonly view?: Partial<LineView>;
};

export const changed = ({ readings, outputs, plant, view }: Change): LineView => ({
  ...BASE,
  ...view,
  plant: {
    ...PLANT,
    ...plant,
    readings: { ...READINGS, ...readings },
    outputs: { ...PLANT.outputs, ...outputs },
  },
});

export const order = (family: 'emulsion' | 'cutback', bay: number) => ({
  n: 1,
  mix: `patch-${family}`,
  mixName: `${family} patch mix`,
  family,
  tonnes: 20,
  madeKg: 6750,
  bay,
  chosen: true,
});

export const weight = (id: string, label: string, valueKg: number, targetKg: number, text: string) => ({
  id,
  label,
  valueKg,
  targetKg,
  lowKg: targetKg * 0.98,
  highKg: targetKg * 1.02,
  capacityKg: id === 'bucket' ? 120 : 1000,
  standing: 'met' as const,
  text,
});
