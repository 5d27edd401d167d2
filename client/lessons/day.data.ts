/** A fresh pile and a tank vent through a day, for the fourth lesson. */

import { dipOfM } from '../../machines/mix/cylinder.ts';
import { coneOf, type PileMoment, pileThrough } from '../../machines/mix/fresh-pile.ts';
import { KEROSENE_LEL_VOL_PCT } from '../../machines/mix/published.ts';
import {
  detectorLelPct,
  pureVapourKgM3,
  saturatedLelPct,
  solventMoleShare,
} from '../../machines/mix/solvent.ts';
import { type VentMoment, ventThrough } from '../../machines/mix/tank-vent.ts';
import { densityKgM3 } from '../../machines/mix/volume-correction.ts';
import { airC } from '../../machines/plant/ambient.ts';
import { columnOf } from '../../machines/plant/tank.ts';
import type { LessonFigures } from './figures.ts';

/** The day is drawn from this hour on for so many hours. */
export const DAY_FROM_H = 7;
export const DAY_HOURS = 24;
const EVERY_S = 900;
/** A delivery in the lesson: so many kg within the hour from this one (invented for the lesson). */
export const DELIVERY = { kg: 3000, fromH: 10, hours: 1 } as const;

const airOver =
  ({ airC: air }: LessonFigures) =>
  (atS: number): number =>
    airC({ startC: air.start, warmestC: air.warmest, rain: [] }, DAY_FROM_H * 60, DAY_FROM_H * 60 + atS / 60);

const shareOf = ({ mix }: LessonFigures): number =>
  solventMoleShare(mix.binder.residueMassPct, mix.binder.solventMassPct);

export type PileRow = PileMoment & {
  readonly hour: number;
  /** Just behind the pile in the open, and under a sheet once the air there is saturated; % LEL. */
  readonly behindLelPct: number;
  readonly sheetedLelPct: number;
};

/** A lot laid as one pile at laidC in a steady wind. */
export const pileRows = (figures: LessonFigures, laidC: number, windMS: number): readonly PileRow[] => {
  const { mix } = figures;
  const binderShare = mix.binder.dosePct / (100 + mix.binder.dosePct);
  return pileThrough(
    {
      massKg: mix.lotKg,
      startC: laidC,
      solventPctOfMix: binderShare * mix.binder.solventMassPct,
      moleShare: shareOf(figures),
      windMS,
      airC: airOver(figures),
    },
    DAY_HOURS,
    EVERY_S,
  ).map((moment) => ({
    ...moment,
    hour: DAY_FROM_H + moment.atS / 3600,
    behindLelPct: detectorLelPct(moment.behindKgM3, moment.airC),
    sheetedLelPct: saturatedLelPct(moment.tempC, shareOf(figures)),
  }));
};

/** Solvent in the whole lot, kg. */
export const solventInLotKg = ({ mix }: LessonFigures): number =>
  (mix.lotKg * mix.binder.dosePct * mix.binder.solventMassPct) / (100 + mix.binder.dosePct) / 100;

export const pileAreaM2 = ({ mix }: LessonFigures): number => coneOf(mix.lotKg).areaM2;

export type VentRow = VentMoment & {
  readonly hour: number;
  readonly headVolPct: number;
  /** As % of the lower limit printed for kerosene. */
  readonly headLelPct: number;
};

/** The cutback tank as it was filled this morning, its binder held at binderC, with or without a delivery. */
export const ventRows = (figures: LessonFigures, binderC: number, delivery: boolean): readonly VentRow[] => {
  const { tank } = figures;
  const kgM3 = densityKgM3(columnOf(tank), tank.densityAt15KgM3, binderC);
  const from = (DELIVERY.fromH - DAY_FROM_H) * 3600;
  const fillM3S = DELIVERY.kg / kgM3 / (DELIVERY.hours * 3600);
  return ventThrough(
    {
      diameterM: tank.diameterM,
      lengthM: tank.lengthM,
      dipM: dipOfM(tank.diameterM, tank.lengthM, tank.startMassKg / kgM3 / 2),
      binderC,
      moleShare: shareOf(figures),
      fillM3S: (atS) => (delivery && atS >= from && atS < from + DELIVERY.hours * 3600 ? fillM3S : 0),
      airC: airOver(figures),
    },
    DAY_HOURS,
    EVERY_S,
  ).map((moment) => {
    const headVolPct = (100 * moment.headKgM3) / pureVapourKgM3(moment.gasC);
    return {
      ...moment,
      hour: DAY_FROM_H + moment.atS / 3600,
      headVolPct,
      headLelPct: (100 * headVolPct) / KEROSENE_LEL_VOL_PCT,
    };
  });
};
