/** What must be counted between readings: purge volumes, and how long scales and motor have shown empty. */
import { purgeCountHeld } from '../charts/burner/burner.guards.ts';
import type { Readings } from '../field/tags.ts';
import { type Line, TICK_MS, type Watch } from './line.types.ts';
import { netKg, presentMix } from './lookup.ts';

/** This close to zero a scale counts as empty, kg: a dead cell far below zero does not. Common practice, no source. */
export const EMPTY_HOPPER_KG = 2;
export const EMPTY_BUCKET_KG = 0.3;

/** Counting stops here; the signals need no more. */
export const TICKS_ENOUGH = 100;
const VOLUMES_ENOUGH = 12;
/** A drum meter that shows flow this long with its fan asked off is not believed, ticks. Common practice, no source. */
const FLOW_LIES_TICKS = 300;
/** Share of the rated dryer fan flow that counts as proved; NFPA-style proof of purge air, share from memory. */
export const FAN_PROVED_SHARE = 0.5;

/** The drum's flow meter shows flow that no fan makes, and has not been seen at rest since. */
export const drumFlowLies = (watch: Watch): boolean => watch.fanOffFlowTicks >= FLOW_LIES_TICKS;

/** Vessels are handed over empty; a scale that shows otherwise says so in the first tick. */
export const START_WATCH: Watch = {
  purgeVolumes: 0,
  hopperEmptyTicks: TICKS_ENOUGH,
  bucketEmptyTicks: TICKS_ENOUGH,
  mixerEmptyTicks: 0,
  bucketAtMostKg: 0,
  mixerGateTicks: 0,
  emulsionStillS: 0,
  cutbackStillS: 0,
  cleanAirS: 0,
  noVapourS: 0,
  emulsionDipFromMm: 0,
  cutbackDipFromMm: 0,
  holdingBinPeakKg: 0,
  holdingBinStillTicks: 0,
  fanOffFlowTicks: 0,
};

const counted = (is: boolean, ticks: number): number => (is ? Math.min(TICKS_ENOUGH, ticks + 1) : 0);

/** Volumes of air changed by measured flow since the last flame, open fuel valve or loss of flow. */
const purged = (line: Line): number => {
  const { readings, watch, scenario } = line;
  const { dryer } = scenario.plant;
  if (readings.flameSeen === 1 || readings.fuelValveShut === 0) return 0;
  if (line.outputs.burnerPilot || line.outputs.burnerMain !== 'shut') return 0;
  if (purgeCountHeld(line.charts.burner?.value as never)) return 0;
  const counts = readings.drumAirM3S >= dryer.fanM3S * FAN_PROVED_SHARE && !drumFlowLies(watch);
  if (watch.purgeVolumes >= VOLUMES_ENOUGH || !counts)
    return watch.purgeVolumes >= dryer.purgeVolumes ? watch.purgeVolumes : 0;
  return watch.purgeVolumes + (readings.drumAirM3S * TICK_MS) / 1000 / dryer.drumVolumeM3;
};

/** Gone as soon as the meter shows less; held while the fan is asked for, when nothing can be told. */
const fanOffFlowTicks = (line: Line): number => {
  const { outputs, watch, readings, scenario } = line;
  if (readings.drumAirM3S < scenario.plant.dryer.fanM3S * FAN_PROVED_SHARE) return 0;
  if (outputs.drumFan) return watch.fanOffFlowTicks;
  return Math.min(FLOW_LIES_TICKS, watch.fanOffFlowTicks + 1);
};

const FED_MARGIN = 1.05;

/** Fed at the rate of its gate, drained at the rate of its valve: a scale that lies cannot empty it. */
const bucketAtMostKg = (line: Line): number => {
  const { outputs, watch, readings, scenario } = line;
  const { bucket } = scenario.plant;
  if (outputs.cutbackFeed === 'shut' && outputs.emulsionFeed === 'shut' && !outputs.bucketValve)
    return watch.bucketAtMostKg;
  const opening = outputs.cutbackFeed === 'shut' ? outputs.emulsionFeed : outputs.cutbackFeed;
  const inKgS = opening === 'full' ? bucket.fillKgS : opening === 'dribble' ? bucket.fillDribbleKgS : 0;
  const outKgS = outputs.bucketValve && readings.bucketValveShut === 0 ? bucket.drainKgS : 0;
  const kg = watch.bucketAtMostKg + ((inKgS * FED_MARGIN - outKgS) * TICK_MS) / 1000;
  return Math.min(bucket.capacityKg * 1.1, Math.max(0, Math.round(kg * 1000) / 1000));
};

/** Counted while the gate is open over a turning mill, kept over a hold, begun anew by the next charge. */
const gateTicks = (line: Line, turning: boolean): number => {
  const { outputs, watch } = line;
  if (outputs.hopperTo === 'mixer' || outputs.holdingGate !== 'shut') return 0;
  return outputs.mixerGate && turning ? Math.min(100_000, watch.mixerGateTicks + 1) : watch.mixerGateTicks;
};

/** Time the gate takes to let out what is booked to the mill, ticks. */
export const leastGateTicks = (line: Line): number =>
  ((line.books.mixer ?? 0) / 1000 / line.scenario.plant.mixer.dischargeKgS) * 10;

/** Counted by the second while the coil is open; any move of the thermometer begins it anew. */
const stillS = (wasS: number, moved: boolean, heated: boolean, second: boolean): number => {
  if (moved) return 0;
  return heated && second ? Math.min(STILL_ENOUGH_S, wasS + 1) : wasS;
};

/** A heated tank whose thermometer has stood still this long is not trusted, s. Common practice, no source. */
export const STILL_ENOUGH_S = 1200;

/** Field by field, since it is asked ten times a second of plant time. */
const isSame = (a: Watch, b: Watch): boolean =>
  a.purgeVolumes === b.purgeVolumes &&
  a.hopperEmptyTicks === b.hopperEmptyTicks &&
  a.bucketEmptyTicks === b.bucketEmptyTicks &&
  a.mixerEmptyTicks === b.mixerEmptyTicks &&
  a.bucketAtMostKg === b.bucketAtMostKg &&
  a.mixerGateTicks === b.mixerGateTicks &&
  a.emulsionStillS === b.emulsionStillS &&
  a.cutbackStillS === b.cutbackStillS &&
  a.cleanAirS === b.cleanAirS &&
  a.noVapourS === b.noVapourS &&
  a.emulsionDipFromMm === b.emulsionDipFromMm &&
  a.cutbackDipFromMm === b.cutbackDipFromMm &&
  a.holdingBinPeakKg === b.holdingBinPeakKg &&
  a.holdingBinStillTicks === b.holdingBinStillTicks &&
  a.fanOffFlowTicks === b.fanOffFlowTicks;

/** Vapour in clean air from which a detector is taken to drift, % LEL. Common practice, no source. */
const CLEAN_AIR_LEL_PCT = 3;
/** Over turning cutback mix a healthy detector shows more than this, % LEL. Teaching value. */
const SOME_VAPOUR_LEL_PCT = 0.2;
/** Dips are compared over so many ticks: foam rises faster than heat or rain lets a level rise. */
const DIP_TICKS = 3000;

type BySecond = Pick<Watch, 'cleanAirS' | 'noVapourS' | 'emulsionDipFromMm' | 'cutbackDipFromMm'>;

const dipFromMm = (line: Line, tank: 'emulsion' | 'cutback'): number => {
  const dipMm = line.readings[`${tank}DipMm`];
  const from = line.watch[`${tank}DipFromMm`];
  const anew = line.tick % DIP_TICKS === 0 || line.tick <= 10 || line.tankMemos[tank].delivery !== null;
  return anew ? dipMm : Math.min(from, dipMm);
};

/** Counts of things that take minutes; none of them moves while all is well. */
const bySecond = (line: Line): BySecond => {
  const { readings, signals, watch } = line;
  const clean =
    !signals.cutbackInMixer &&
    !signals.cutbackInBucket &&
    signals.extractionProved &&
    readings.vapourLelPct >= CLEAN_AIR_LEL_PCT;
  // Emulsion of a tank in doubt counts as cutback, but may well be none: silence over it says nothing of the detector.
  const mute =
    signals.cutbackInMixer &&
    presentMix(line).family === 'cutback' &&
    signals.mixerTurning &&
    readings.vapourLelPct <= SOME_VAPOUR_LEL_PCT;
  return {
    cleanAirS: clean ? Math.min(3600, watch.cleanAirS + 1) : 0,
    noVapourS: mute ? Math.min(3600, watch.noVapourS + 1) : 0,
    emulsionDipFromMm: dipFromMm(line, 'emulsion'),
    cutbackDipFromMm: dipFromMm(line, 'cutback'),
  };
};

/** The watch one tick later; the same object when nothing counts. */
export const watchOn = (line: Line, before: Readings): Watch => {
  const { readings, watch, outputs, scenario } = line;
  const idleA = scenario.plant.mixer.idleA;
  const turning = readings.mixerMotorA > idleA * 0.5;
  const second = line.tick % 10 === 0;
  const slow: BySecond = second ? bySecond(line) : watch;
  const peak = outputs.drumDischarge
    ? watch.holdingBinStillTicks === 0 && watch.holdingBinPeakKg === 0
      ? readings.holdingBinKg
      : Math.max(watch.holdingBinPeakKg, readings.holdingBinKg)
    : 0;
  const next: Watch = {
    purgeVolumes: purged(line),
    hopperEmptyTicks: counted(Math.abs(netKg(line, 'hopperKg')) <= EMPTY_HOPPER_KG, watch.hopperEmptyTicks),
    bucketEmptyTicks: counted(Math.abs(netKg(line, 'bucketKg')) <= EMPTY_BUCKET_KG, watch.bucketEmptyTicks),
    mixerEmptyTicks: counted(
      outputs.mixerGate &&
        turning &&
        readings.mixerMotorA >= idleA * 0.75 &&
        watch.mixerGateTicks >= leastGateTicks(line) &&
        readings.mixerMotorA <= idleA * 1.04 + 0.5,
      watch.mixerEmptyTicks,
    ),
    bucketAtMostKg: bucketAtMostKg(line),
    mixerGateTicks: gateTicks(line, turning),
    emulsionStillS: stillS(
      watch.emulsionStillS,
      readings.emulsionTankC !== before.emulsionTankC,
      outputs.emulsionCoil,
      line.tick % 10 === 0,
    ),
    cutbackStillS: stillS(
      watch.cutbackStillS,
      readings.cutbackTankC !== before.cutbackTankC,
      outputs.cutbackCoil,
      line.tick % 10 === 0,
    ),
    cleanAirS: slow.cleanAirS,
    noVapourS: slow.noVapourS,
    emulsionDipFromMm: slow.emulsionDipFromMm,
    cutbackDipFromMm: slow.cutbackDipFromMm,
    holdingBinPeakKg: peak,
    // What is drawn at the same time hides what the drum still gives.
    holdingBinStillTicks:
      outputs.drumDischarge && outputs.holdingGate === 'shut'
        ? peak > watch.holdingBinPeakKg
          ? 0
          : counted(true, watch.holdingBinStillTicks)
        : 0,
    fanOffFlowTicks: fanOffFlowTicks(line),
  };
  return isSame(watch, next) ? watch : next;
};

/** How long each count must last before a signal believes it, ticks. Common practice, no source. */
export const BELIEVED = { hopperEmpty: 10, bucketEmpty: 15, mixerEmpty: 20, drumEmpty: 60 } as const;

/** Which of its limits the watch has passed, as bits: signals follow from these, so between them nothing need be heard. */
export const limitsPassed = (line: Line, watch: Watch): number =>
  (watch.purgeVolumes >= line.scenario.plant.dryer.purgeVolumes ? 1 : 0) |
  (watch.hopperEmptyTicks >= BELIEVED.hopperEmpty ? 2 : 0) |
  (watch.bucketEmptyTicks >= BELIEVED.bucketEmpty ? 4 : 0) |
  (watch.mixerEmptyTicks >= BELIEVED.mixerEmpty ? 8 : 0) |
  (watch.bucketAtMostKg <= 0 ? 16 : 0) |
  (watch.emulsionStillS >= STILL_ENOUGH_S ? 32 : 0) |
  (watch.cutbackStillS >= STILL_ENOUGH_S ? 64 : 0) |
  (watch.holdingBinStillTicks >= BELIEVED.drumEmpty ? 128 : 0) |
  (drumFlowLies(watch) ? 256 : 0);
