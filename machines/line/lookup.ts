/** Short questions about a line that many parts ask. */
import type { AnyMachineSnapshot } from 'xstate';

import type { BatchKind, BatchValue } from '../charts/batch/batch.guards.ts';
import type { CampaignState } from '../charts/campaign/campaign.machine.ts';
import type { WeigherState } from '../charts/weigher/weigher.machine.ts';
import { type BatchTargets, batchTargets, dryTargets } from '../mix/batch-targets.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { BinSpec } from '../scenario/plant.schema.ts';
import type { Specification } from '../scenario/specification.schema.ts';
import type { ChartId, Line, Lot, Order, WeigherId } from './line.types.ts';

export const mixById = (line: Line, id: string): Mix => {
  for (const mix of line.scenario.mixes) if (mix.id === id) return mix;
  throw new Error(`the scenario has no mix ${id}`);
};

/** The specification a mix's lots are judged by; null when it names none, or its file is not in this scenario. */
export const specificationOf = (line: Line, mix: Mix): Specification | null =>
  line.scenario.specifications?.find((one) => one.id === mix.specification) ?? null;

export const presentOrder = (line: Line): Order => {
  const order = line.orders[line.order - 1];
  if (order === undefined) throw new Error(`no order ${line.order}`);
  return order;
};

/** What is missing of an order asks for another batch only from this share of one on: batches weigh a little more or less. */
const WANTS_A_BATCH = 0.02;

/** Batches still to be made of an order; 0 when it is made. */
export const batchesLeft = (line: Line, order: Order): number => {
  const batches = (order.tonnes * 1e6 - order.madeGrams) / (mixById(line, order.mixId).batchKg * 1000);
  return Math.max(0, Math.ceil(batches - WANTS_A_BATCH));
};

/** The mix of the batch in progress, else of the order chosen. */
export const presentMix = (line: Line): Mix => mixById(line, line.batch?.mixId ?? presentOrder(line).mixId);

/** The cutback mix that drying, tank heat and limits go by: that of the campaign, of the order, or the first there is. */
export const cutbackMix = (line: Line): Mix | null => {
  const named = line.campaign?.mixId ?? presentOrder(line).mixId;
  const mix = line.scenario.mixes.find((candidate) => candidate.id === named);
  if (mix !== undefined && mix.family === 'cutback') return mix;
  return line.scenario.mixes.find((candidate) => candidate.family === 'cutback') ?? null;
};

export const emulsionMix = (line: Line): Mix | null => {
  const mix = presentMix(line);
  if (mix.family === 'emulsion') return mix;
  return line.scenario.mixes.find((candidate) => candidate.family === 'emulsion') ?? null;
};

export const chartOf = (line: Line, chart: ChartId): AnyMachineSnapshot | undefined =>
  line.charts[chart] ?? line.alarmCharts[chart];

export const chartValue = (line: Line, chart: ChartId): unknown => chartOf(line, chart)?.value;
export const batchValue = (line: Line): BatchValue => chartValue(line, 'batch') as BatchValue;
export const campaignState = (line: Line): CampaignState => chartValue(line, 'campaign') as CampaignState;
export const weigherState = (line: Line, id: WeigherId): WeigherState => chartValue(line, id) as WeigherState;

export const openLot = (line: Line): Lot | null => {
  const last = line.lots[line.lots.length - 1];
  return last !== undefined && last.state === 'open' ? last : null;
};

export const accountGrams = (line: Line, account: keyof Line['books']): number => line.books[account] ?? 0;

/** What a scale carries, its zero as last set taken off, kg. */
export const netKg = (line: Line, scale: keyof Line['zeros']): number =>
  Math.round((line.readings[scale] - line.zeros[scale]) * 1000) / 1000;

export const WEIGHER_IDS: readonly WeigherId[] = ['aggregateWeigher', 'dryWeigher', 'binderWeigher'];

/** Scale reading of each weigher, the way round that grows while material is taken, and its interval. */
export const WEIGHER_SCALES = {
  aggregateWeigher: { tag: 'hopperKg', gives: false, intervalKg: 1 },
  dryWeigher: { tag: 'holdingBinKg', gives: true, intervalKg: 2 },
  binderWeigher: { tag: 'bucketKg', gives: false, intervalKg: 0.1 },
} as const;

/** True when a mix takes its aggregate dried or warmed from the holding bin, not cold from the weigh hopper. */
export const drawsDried = (mix: Mix): boolean => mix.drying !== undefined;

/** Which batch chart a mix is made by. */
export const batchKind = (mix: Mix): BatchKind =>
  mix.family === 'cutback' ? 'cutback' : drawsDried(mix) ? 'warmEmulsion' : 'emulsion';

/** The cold bins with the moisture that is known now: as tested this morning, or by a newer test. */
export const binsNow = (line: Line): readonly BinSpec[] => {
  const { bins } = line.scenario.plant;
  const newer = line.moisturePct;
  if (newer === undefined) return bins;
  return bins.map((bin, i) => ({
    ...bin,
    testedMoisturePct: newer[String(i + 1)] ?? bin.testedMoisturePct,
  }));
};

/** What one batch of a mix takes, whichever way its aggregate comes. */
export const targetsOf = (line: Line, mix: Mix): BatchTargets =>
  drawsDried(mix) ? dryTargets(mix) : batchTargets(mix, binsNow(line));

/** The mix a drying campaign is for, or would be for by the order chosen; null when it needs none. */
export const dryingMix = (line: Line): Mix | null => {
  const mix = mixById(line, line.campaign?.mixId ?? presentOrder(line).mixId);
  return drawsDried(mix) ? mix : null;
};

/** Window in which aggregate of a mix is drawn: for cutback its top is lowered by what the hot binder will add. */
export const drawWindow = (mix: Mix): { readonly fromC: number; readonly toC: number } => ({
  fromC: mix.windows.aggregateC.fromC,
  toC: mix.windows.drawAtC ?? mix.windows.aggregateC.toC,
});
