/** Binder temperature against viscosity and against vapour, for the first lesson. */
import { openBinderKgS } from '../../machines/mix/evaporation.ts';
import { KEROSENE_UEL_VOL_PCT } from '../../machines/mix/published.ts';
import { solventMoleShare } from '../../machines/mix/solvent.ts';
import { cutOf, cutVapour } from '../../machines/mix/solvent-cut.ts';
import { viscosityMm2S, waltherLine } from '../../machines/mix/walther.ts';
import type { LessonFigures } from './figures.ts';

export type BinderRow = {
  readonly tempC: number;
  readonly mm2S: number;
  /** Saturated vapour as % of the lower limit: of the solvent alone, and held back by the bitumen (Raoult). */
  readonly solventLelPct: number;
  readonly binderLelPct: number;
  /** The upper limit as % of the lower one at that temperature. */
  readonly upperPct: number;
};

/** The binder at tempC with a solvent of some heaviness: −1 lighter, 0 as the surrogate, 1 heavier. */
export const binderAt = ({ mix }: LessonFigures, tempC: number, heaviness = 0): BinderRow => {
  const { residueMassPct, solventMassPct, viscosity } = mix.binder;
  const { lelPct, lelVolPct } = cutVapour(cutOf(heaviness), tempC);
  return {
    tempC,
    mm2S: viscosityMm2S(waltherLine(viscosity[0], viscosity[1]), tempC),
    solventLelPct: lelPct,
    binderLelPct: lelPct * solventMoleShare(residueMassPct, solventMassPct),
    upperPct: (100 * KEROSENE_UEL_VOL_PCT) / lelVolPct,
  };
};

/** Solvent leaving one square metre of it lying open in a wind, g/min: the most it can be. */
export const openGPerMin = ({ mix }: LessonFigures, tempC: number, windMS: number): number => {
  const { residueMassPct, solventMassPct } = mix.binder;
  return openBinderKgS(tempC, solventMoleShare(residueMassPct, solventMassPct), 1, windMS, 1) * 60_000;
};

export const BINDER_FROM_C = 40;
export const BINDER_TO_C = 120;

/** A row for every degree. */
export const binderRows = (figures: LessonFigures, heaviness = 0): readonly BinderRow[] =>
  Array.from({ length: BINDER_TO_C - BINDER_FROM_C + 1 }, (_, i) =>
    binderAt(figures, BINDER_FROM_C + i, heaviness),
  );

/** In words, what the vapour over the binder is at a temperature. */
export const vapourWords = ({ solventLelPct, upperPct }: BinderRow): string =>
  solventLelPct < 100
    ? 'too thin to burn, even when it stands still'
    : solventLelPct < upperPct
      ? 'inside the explosive range: any flame or spark lights it'
      : 'too rich to burn until air thins it; then it passes through the explosive range';
