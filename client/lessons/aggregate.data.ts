/** Aggregate temperature against vapour at the hood, for the last lesson. */
import { doublesEveryK } from '../../machines/mix/solvent.ts';
import type { LessonFigures } from './figures.ts';
import { settledAt, sourceOf } from './hood.data.ts';

export type AggregateRow = {
  readonly aggregateC: number;
  readonly mixC: number;
  /** Settled at the hood with its fan at full flow, and with only the flow that still counts as proved; % LEL. */
  readonly lelPct: number;
  readonly leastFanLelPct: number;
  /** Kelvin of mix temperature over which the vapour pressure alone doubles. */
  readonly doublesK: number;
};

export const aggregateAt = (figures: LessonFigures, aggregateC: number, binderC: number): AggregateRow => {
  const source = sourceOf(figures, aggregateC, binderC);
  return {
    aggregateC,
    mixC: source.mixC,
    lelPct: settledAt(figures, source, figures.hood.fanM3S).lelPct,
    leastFanLelPct: settledAt(figures, source, figures.hood.provedM3S).lelPct,
    doublesK: doublesEveryK(source.mixC),
  };
};

export const AGGREGATE_FROM_C = 20;
export const AGGREGATE_TO_C = 110;

/** A row for every degree. */
export const aggregateRows = (figures: LessonFigures, binderC: number): readonly AggregateRow[] =>
  Array.from({ length: AGGREGATE_TO_C - AGGREGATE_FROM_C + 1 }, (_, i) =>
    aggregateAt(figures, AGGREGATE_FROM_C + i, binderC),
  );
