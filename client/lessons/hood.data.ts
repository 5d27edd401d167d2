/** Vapour under the hood: solvent given off against air drawn, with the simulated plant's own source of vapour. */
import { detectorLelPct, pureVapourKgM3 } from '../../machines/mix/solvent.ts';
import {
  type Space,
  secondsUntilKgM3,
  settlesAtKgM3,
  sourceKgS,
  vapourAfterKgM3,
} from '../../machines/mix/well-mixed.ts';
import { binderIn } from '../../machines/plant/binder.ts';
import { createHood, offered } from '../../machines/plant/hood.ts';
import { createPugMill, mixKgOf, NO_ARRIVALS, received } from '../../machines/plant/mill-contents.ts';
import { ALL_BIN_1 } from '../../machines/plant/sizes.ts';
import type { LessonFigures } from './figures.ts';

/** A full batch once aggregate and binder have met, by the simulated plant's balance of mass and heat. */
const batchOf = ({ mix, tank, airC }: LessonFigures, aggregateC: number, binderC: number) => {
  const stoneKg = mix.batchKg / (1 + mix.binder.dosePct / 100);
  const cutback = binderIn(tank, [mix]);
  const heap = { stoneKg, waterKg: 0, drinkKg: 0, tempC: aggregateC, sizes: ALL_BIN_1 };
  const arrivals = { ...NO_ARRIVALS, fromHolding: heap, cutbackKg: mix.batchKg - stoneKg, binderC };
  return { cutback, mill: received(createPugMill(airC.start), arrivals, cutback, cutback) };
};

export type Source = {
  readonly mixC: number;
  readonly exchangeM3S: number;
  readonly saturatedKgM3: number;
};

/** What a full batch, turning, offers the air under the hood. */
export const sourceOf = (figures: LessonFigures, aggregateC: number, binderC: number): Source => {
  const { mill, cutback } = batchOf(figures, aggregateC, binderC);
  const hood = offered(
    createHood(figures.airC.start),
    cutback,
    { bitumenKg: mill.bitumenKg, solventKg: mill.solventKg, tempC: mill.tempC, speed: 1 },
    mixKgOf(mill),
    figures.airC.start,
  );
  return { mixC: mill.tempC, exchangeM3S: hood.exchangeM3S, saturatedKgM3: hood.saturatedKgM3 };
};

const spaceOf = ({ hood }: LessonFigures, source: Source, fanM3S: number): Space => ({
  volumeM3: hood.volumeM3,
  flowM3S: fanM3S + hood.leakM3S,
  exchangeM3S: source.exchangeM3S,
  saturatedKgM3: source.saturatedKgM3,
});

/** Vapour the hood settles at with so much air drawn, % LEL as the detector has it, and the solvent leaving, g/min. */
export const settledAt = (figures: LessonFigures, source: Source, fanM3S: number) => {
  const space = spaceOf(figures, source, fanM3S);
  const kgM3 = settlesAtKgM3(space);
  return {
    fanM3S,
    lelPct: detectorLelPct(kgM3, figures.airC.start),
    gPerMin: sourceKgS(space, kgM3) * 60_000,
  };
};

/** From the level settled at with so much air: % LEL so many seconds after the fan has stopped. */
export const afterLoss = (
  figures: LessonFigures,
  source: Source,
  fanM3S: number,
  seconds: number,
): number => {
  const start = settlesAtKgM3(spaceOf(figures, source, fanM3S));
  return detectorLelPct(vapourAfterKgM3(spaceOf(figures, source, 0), start, seconds), figures.airC.start);
};

/** Seconds from the loss of the fan until a level in % LEL; 0 when it stood there before, null when it never comes. */
export const secondsToLel = (
  figures: LessonFigures,
  source: Source,
  fanM3S: number,
  lelPct: number,
): number | null => {
  const level =
    (lelPct / detectorLelPct(pureVapourKgM3(figures.airC.start), figures.airC.start)) *
    pureVapourKgM3(figures.airC.start);
  const start = settlesAtKgM3(spaceOf(figures, source, fanM3S));
  return secondsUntilKgM3(spaceOf(figures, source, 0), start, level);
};
