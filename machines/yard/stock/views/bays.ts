/** Bays as a console shows them: each lot in its layers, how it lies, how old it is and how it will work tomorrow. */
import { bayHeapOfM3, LOOSE_MIX_KG_M3, REPOSE_DEG } from '../../piles/piles.ts';
import { type Heap, weatheredThrough } from '../../weathering/weathering.ts';
import { cutbackWorkability, emulsionWorkability, type Workability } from '../../weathering/workability.ts';
import { labStateOf, MAY_LEAVE, type StockOthers } from '../others.types.ts';
import { sumOf } from '../parts.ts';
import { SHELF_DAYS } from '../rules.ts';
import type { BayShape, Layer, PlaceId, StockLot, StockState, TankName } from '../state.types.ts';
import { daysBetween } from '../time.ts';

/** Four ways a lot can stand, each with its mark and words. */
export type Standing = 'may leave' | 'on hold' | 'rejected' | 'not yet tested';

export type LayerView = {
  readonly n: number;
  readonly lot: string;
  readonly kg: number;
  readonly bags: number;
  readonly mixId: string;
  readonly mixName: string;
  readonly family: TankName;
  readonly lab: string;
  readonly standing: Standing;
  readonly origin: Layer['origin'];
  readonly from: string;
  readonly laidFrom: string;
  readonly ageDays: number;
  readonly shelfDays: number;
  readonly reworked: number;
  /** By the teaching model; null for filled bags. */
  readonly weathered: null | {
    readonly tempC: number;
    readonly solventLostPct: number;
    readonly rainMm: number;
  };
  readonly tomorrow: Workability | null;
};

export type PlaceView = {
  readonly place: PlaceId;
  readonly name: string;
  readonly capacityT: number | null;
  readonly kg: number;
  readonly shape: BayShape | null;
  readonly heap: null | {
    readonly volumeM3: number;
    readonly heightM: number;
    readonly footM: number;
    readonly over: boolean;
    readonly reposeDeg: number;
    readonly looseKgM3: number;
  };
  readonly layers: readonly LayerView[];
};

/** How a delivered lot compares with what its batches weighed: within 2 %, UFC 3-250-03. */
export type LotBalance = {
  readonly lot: string;
  readonly mixName: string;
  readonly lab: string;
  readonly madeKg: number;
  readonly loadedKg: number;
  readonly returnedKg: number;
  readonly wastedKg: number;
  readonly adjustedKg: number;
  readonly lyingKg: number;
  readonly offPct: number;
  readonly within: boolean;
};

export const LOT_LIMIT_PCT = 2;

export const standingOf = (lab: string): Standing => {
  if ((MAY_LEAVE as readonly string[]).includes(lab)) return 'may leave';
  if (['rejected', 'sent to waste', 'being reworked'].includes(lab)) return 'rejected';
  return lab === 'on hold' ? 'on hold' : 'not yet tested';
};

const heapOf = (bay: BayShape, kg: number) => {
  const volumeM3 = kg / LOOSE_MIX_KG_M3;
  const reposeDeg = REPOSE_DEG['cold mix'];
  const { heightM, footM, over } = bayHeapOfM3(volumeM3, bay.widthM, bay.depthM, reposeDeg);
  return { volumeM3, heightM, footM, over, reposeDeg, looseKgM3: LOOSE_MIX_KG_M3 };
};

/** Mean air of the days since a layer was laid, the first that of its laying. */
const airSince = (s: StockState, laidFrom: string) => {
  const from = laidFrom.slice(0, 10);
  const since = s.weather.filter((day) => day.date >= from);
  return since.length > 0 ? since : s.weather.slice(-1);
};

const layerView = (
  s: StockState,
  others: StockOthers,
  at: string,
  layer: Layer,
  bay: { readonly shape: BayShape; readonly kg: number; readonly areaM2: number } | null,
): LayerView => {
  const lot: StockLot | undefined = s.lots[layer.lot];
  const family = lot?.family ?? 'emulsion';
  const lab = labStateOf(others, layer.lot);
  const made = lot?.openedAt ?? layer.laidFrom;
  const ageDays = Math.max(0, daysBetween(made, at));
  const mix = s.yard?.mixes.find((one) => one.id === lot?.mixId);
  const shelfDays = mix?.shelfDays ?? SHELF_DAYS[family];
  const cutback = family === 'cutback' && mix !== undefined;
  const heap: Heap | null =
    bay === null || bay.kg <= 0
      ? null
      : {
          massKg: bay.kg,
          areaM2: bay.areaM2,
          looseKgM3: LOOSE_MIX_KG_M3,
          solventPctOfMix: cutback ? mix.solventPctOfMix : 0,
          moleShare: cutback ? mix.moleShare : 0,
          cover: bay.shape.cover,
        };
  // Mix that was moved or came back has been out since its lot was made: turning it over makes nothing fresh again.
  const outFrom = layer.origin === 'made' ? layer.laidFrom : made;
  const outTo = layer.origin === 'made' ? layer.laidTo : (lot?.closedAt ?? made);
  const laidC = layer.laidC ?? s.day?.startC ?? 15;
  const through =
    heap === null
      ? null
      : weatheredThrough(heap, laidC, airSince(s, outFrom), Math.max(0, daysBetween(outTo, at)));
  const morningC = s.day?.startC ?? null;
  const tomorrow =
    morningC === null
      ? null
      : cutback
        ? cutbackWorkability(mix.viscosity, through?.solventLostPct ?? 0, morningC)
        : emulsionWorkability(ageDays / shelfDays, morningC);
  return {
    n: layer.n,
    lot: layer.lot,
    kg: layer.grams / 1000,
    bags: layer.bags,
    mixId: lot?.mixId ?? '',
    mixName: lot?.mixName ?? 'mix of a lot no longer kept here',
    family,
    lab,
    standing: standingOf(lab),
    origin: layer.origin,
    from: layer.from,
    laidFrom: layer.laidFrom,
    ageDays: Math.round(ageDays * 10) / 10,
    shelfDays,
    reworked: lot?.reworked ?? 0,
    weathered:
      through === null
        ? null
        : {
            tempC: Math.round(through.tempC * 10) / 10,
            solventLostPct: Math.round(through.solventLostPct * 10) / 10,
            rainMm: Math.round(through.rainMm * 10) / 10,
          },
    tomorrow,
  };
};

const bayView = (s: StockState, others: StockOthers, at: string, shape: BayShape): PlaceView => {
  const place: PlaceId = `bay:${shape.id}`;
  const layers = s.places[place] ?? [];
  const kg = sumOf(layers) / 1000;
  const heap = heapOf(shape, kg);
  // The slope that lies open to the air: as wide as the bay, as long as it is steep.
  const areaM2 = shape.widthM * Math.hypot(heap.footM, heap.heightM);
  return {
    place,
    name: shape.name,
    capacityT: shape.capacityT,
    kg,
    shape,
    heap,
    layers: layers.map((layer) => layerView(s, others, at, layer, { shape, kg, areaM2 })),
  };
};

export const viewPlaces = (s: StockState, others: StockOthers, at: string): readonly PlaceView[] => [
  ...(s.yard?.bays ?? []).map((bay) => bayView(s, others, at, bay)),
  {
    place: 'bags',
    name: 'Filled bags',
    capacityT: null,
    kg: sumOf(s.places.bags ?? []) / 1000,
    shape: null,
    heap: null,
    layers: (s.places.bags ?? []).map((layer) => layerView(s, others, at, layer, null)),
  },
];

export const viewLotBalances = (s: StockState, others: StockOthers): readonly LotBalance[] => {
  const lying = new Map<string, number>();
  for (const layer of Object.values(s.places).flat())
    lying.set(layer.lot, (lying.get(layer.lot) ?? 0) + layer.grams);
  return Object.values(s.lots)
    .slice(-60)
    .reverse()
    .map((lot) => {
      const { madeGrams } = s.filling[lot.lot] ?? lot;
      const offPct = madeGrams === 0 ? 0 : (100 * lot.adjustedGrams) / madeGrams;
      return {
        lot: lot.lot,
        mixName: lot.mixName,
        lab: labStateOf(others, lot.lot),
        madeKg: madeGrams / 1000,
        loadedKg: lot.loadedGrams / 1000,
        returnedKg: lot.returnedGrams / 1000,
        wastedKg: lot.wastedGrams / 1000,
        adjustedKg: lot.adjustedGrams / 1000,
        lyingKg: (lying.get(lot.lot) ?? 0) / 1000,
        offPct: Math.round(offPct * 100) / 100,
        within: Math.abs(offPct) <= LOT_LIMIT_PCT,
      };
    });
};
