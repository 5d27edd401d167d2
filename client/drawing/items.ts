/** The items of equipment in the drawing: their names, where they stand and which instruments are theirs. */
import type { EquipmentFault } from '../../machines/field/outputs.ts';
import type { Tag } from '../../machines/field/tags.ts';

/** The drawing's own coordinates; everything below is in these. */
export const WIDTH = 740;
export const HEIGHT = 570;

export type ItemId =
  | 'bin1'
  | 'bin2'
  | 'bin3'
  | 'bin4'
  | 'hopper'
  | 'dryer'
  | 'holding'
  | 'emulsion'
  | 'cutback'
  | 'oil'
  | 'bucket'
  | 'valve'
  | 'mill'
  | 'hood'
  | 'liquids'
  | 'bays';

export type Box = { readonly x: number; readonly y: number; readonly w: number; readonly h: number };

export type Item = {
  readonly id: ItemId;
  readonly name: string;
  readonly box: Box;
  readonly tags: readonly Tag[];
  readonly faults: readonly EquipmentFault[];
};

const BINS_FROM_X = 14;
const BINS_TO_X = 284;

/** Where cold bin `index` (from 0) of `count` stands. */
export const binBox = (index: number, count: number): Box => {
  const gap = count > 3 ? 10 : 14;
  const w = (BINS_TO_X - BINS_FROM_X - gap * (count - 1)) / count;
  return { x: BINS_FROM_X + index * (w + gap), y: 31, w, h: 75 };
};

const binItem = (n: 1 | 2 | 3 | 4, count: number, name: string): Item => {
  const box = binBox(n - 1, count);
  return {
    id: `bin${n}`,
    name: `Cold bin ${n}, ${name}`,
    box: { ...box, y: 2, h: 120 },
    tags: [`bin${n}LevelPct`],
    faults: [],
  };
};

const FIXED: readonly Item[] = [
  {
    id: 'hopper',
    name: 'Aggregate weigh hopper',
    box: { x: 296, y: 140, w: 98, h: 62 },
    tags: ['hopperKg', 'hopperC'],
    faults: [],
  },
  {
    id: 'dryer',
    name: 'Batch dryer and burner',
    box: { x: 406, y: 68, w: 172, h: 158 },
    tags: ['drumAggregateC', 'drumExhaustC', 'drumAirM3S', 'flameSeen', 'fuelValveShut'],
    faults: ['drumFanStopped', 'fuelValveLeaking', 'flameWillNotLight'],
  },
  {
    id: 'holding',
    name: 'Dry holding bin',
    box: { x: 584, y: 92, w: 154, h: 136 },
    tags: ['holdingBinKg', 'holdingBinC'],
    faults: [],
  },
  {
    id: 'emulsion',
    name: 'Emulsion tank',
    box: { x: 18, y: 240, w: 166, h: 104 },
    tags: ['emulsionTankC', 'emulsionDipMm'],
    faults: [],
  },
  {
    id: 'bucket',
    name: 'Binder weigh bucket',
    box: { x: 286, y: 250, w: 100, h: 72 },
    tags: ['bucketKg'],
    faults: [],
  },
  {
    id: 'valve',
    name: 'Binder valve',
    box: { x: 366, y: 323, w: 60, h: 48 },
    tags: ['bucketValveShut'],
    faults: ['binderValveLeaking'],
  },
  {
    id: 'mill',
    name: 'Pug mill',
    box: { x: 428, y: 298, w: 200, h: 108 },
    tags: ['mixerMotorA', 'mixC', 'sightCoatedPct', 'sightBlackPct', 'sightFreeWaterPct'],
    faults: [],
  },
  {
    id: 'hood',
    name: 'Mixer hood and extraction',
    box: { x: 632, y: 252, w: 106, h: 158 },
    tags: ['hoodFlowM3S', 'vapourLelPct', 'vapourDetectorOk'],
    faults: ['hoodFanStopped'],
  },
  {
    id: 'cutback',
    name: 'Cutback tank',
    box: { x: 18, y: 358, w: 166, h: 106 },
    tags: ['cutbackTankC', 'cutbackDipMm', 'cutbackWaterMm', 'ventLelPct', 'sightTruckBlackPct'],
    faults: [],
  },
  {
    id: 'liquids',
    name: 'Water and anti-strip',
    box: { x: 204, y: 371, w: 222, h: 53 },
    tags: ['waterMeterL', 'antiStripMeterKg'],
    faults: [],
  },
  {
    id: 'oil',
    name: 'Thermal-oil heater',
    box: { x: 18, y: 468, w: 166, h: 92 },
    tags: ['oilC', 'oilFlowing', 'oilFlameSeen'],
    faults: ['oilPumpStopped'],
  },
  { id: 'bays', name: 'Belt and bays', box: { x: 202, y: 425, w: 534, h: 141 }, tags: [], faults: [] },
];

/** All items in the order the material meets them, for a plant with these bins. */
export const itemsOf = (bins: readonly { readonly name: string }[]): readonly Item[] => [
  ...bins
    .slice(0, 4)
    .map((bin, index) => binItem((index + 1) as 1 | 2 | 3 | 4, Math.min(4, bins.length), bin.name)),
  ...FIXED,
];
