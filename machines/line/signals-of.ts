/** Turns readings into the yes-or-no signals charts hear, with hysteresis and holding times. */

import { burnerIsLockedOut, burnerIsOff, burnerIsRunning } from '../charts/burner/burner.guards.ts';
import {
  binderMayFlow,
  burnerMayFire,
  type ChartValue,
  isTripped,
  regionState,
} from '../charts/flame-interlock/flame-interlock.guards.ts';
import type { Signals } from '../charts/signals.ts';
import { heatIsWanted } from '../charts/tank-heater/tank-heater.guards.ts';
import { FOAMS_ABOVE_C } from '../charts/tank-interlock/heater-kinds.ts';
import { tankMayAskForHeat } from '../charts/tank-interlock/tank-interlock.guards.ts';
import { isOutOfTolerance } from '../charts/weigher/weigher.guards.ts';
import { TAGS } from '../field/tags.ts';
import { dryTargets } from '../mix/batch-targets.ts';
import { EMULSION_MAX_C } from '../mix/published.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import type { Line, Product } from './line.types.ts';
import {
  accountGrams,
  batchValue,
  campaignState,
  chartValue,
  cutbackMix,
  drawsDried,
  drawWindow,
  dryingMix,
  emulsionMix,
  presentMix,
  weigherState,
} from './lookup.ts';
import { isCalibrated, isInhibited } from './maintenance.ts';
import { coverNeededMm, heaterRulesOf, isTankKnown, WATER_FOUND_MM } from './tank-care.ts';
import { BELIEVED, drumFlowLies, FAN_PROVED_SHARE, STILL_ENOUGH_S } from './watch.ts';
import { allWeighed } from './weighing.ts';

/** True from `on` upwards, false again only below `off` (off ≤ on). */
const rises = (was: boolean, value: number, on: number, off: number): boolean => value >= (was ? off : on);

/** True inside a window; once outside, it counts as inside again only `margin` within the edges. */
const inside = (was: boolean, value: number, from: number, to: number, margin: number): boolean =>
  was ? value >= from && value <= to : value >= from + margin && value <= to - margin;

/** A probe at the bottom of its range is dead: its aggregate may be of any temperature, so it counts as too hot. */
const DEAD_PROBE_C = TAGS.mixC.min;
/** Back inside a window only this far from its edge, against chatter. Common practice, no source. */
/** A holding bin that shows no more than this has been run out, kg. Common practice, no source. */
const RUN_OUT_KG = 4;
const WINDOW_MARGIN_C = 0.2;
/**
 * Hot binder warms its aggregate by two to three degrees. Aggregate that was over its limit must cool by so much more,
 * or the first binder would put it over again.
 */
const BINDER_WARMS_BY_C = 3;
/** Tank heat stops at its set temperature and starts again this far below. Common practice, no source. */
const TANK_BAND_C = 3;
/** The same for the thermal oil, and how far above its set temperature it is cut off. Common practice, no source. */
const OIL_BAND_C = 8;
const OIL_OVER_C = 20;
/** Stone this far above its outlet temperature means the drum is not moving on. Common practice, no source. */
const DRUM_OVER_C = 50;
/** Exhaust of a drum that dries stays well below this. Common practice, no source. */
const EXHAUST_OVER_C = 280;
/** A reading at the very bottom of its range is a broken wire, not a cold day. */
const isDead = (r: Line['readings'], tag: keyof Line['readings']): boolean => r[tag] <= TAGS[tag].min;

/** Temperature of the aggregate the next binder will meet: in the pug mill when charged, else where it waits. */
export const bindingAggregateC = (line: Line): number => {
  const { readings } = line;
  if (accountGrams(line, 'mixer') > 0) return readings.mixC;
  return drawsDried(presentMix(line)) ? readings.holdingBinC : readings.hopperC;
};

type Verdict = {
  readonly tripped: boolean;
  readonly binderMayFlow: boolean;
  readonly burnerMayFire: boolean;
};
const verdicts = new WeakMap<object, Verdict>();

/** What the interlock says in a state: state values are shared objects, so each is judged once. */
const verdictOf = (value: ChartValue): Verdict => {
  const known = typeof value === 'object' ? verdicts.get(value) : undefined;
  if (known !== undefined) return known;
  const verdict = {
    tripped: isTripped(value),
    binderMayFlow: binderMayFlow(value),
    burnerMayFire: burnerMayFire(value),
  };
  if (typeof value === 'object') verdicts.set(value, verdict);
  return verdict;
};

/** A dose that takes three times as long as its pump or valve needs is not being counted: it is cut and the batch held. */
export const meterStalled = (line: Line): boolean => {
  const { batch, scenario } = line;
  const { step, procedure } = batchValue(line);
  if (batch === null || procedure !== 'running') return false;
  const { water, antiStrip } = scenario.plant;
  const needsS =
    step === 'preWetting'
      ? batch.waterTargetL / water.flowKgS
      : step === 'antiStripping'
        ? batch.antiStripTargetKg / antiStrip.flowKgS
        : null;
  return needsS !== null && line.tick - line.stepTick > (3 * needsS + 10) * 10;
};

/** Vapour at the vents is let fall this far below a limit before it counts as low again, % LEL. Common practice, no source. */
const VENT_BAND_LEL_PCT = 2;
const ventHigh = (was: boolean, lelPct: number, plant: PlantSpec, tank: Product): boolean => {
  const limit = heaterRulesOf(plant, tank).ventLimitLelPct;
  return rises(was, lelPct, limit, limit - VENT_BAND_LEL_PCT);
};

const coverMm = (dipMm: number, coilTopM: number): number => dipMm - coilTopM * 1000;

/**
 * Signals of this moment. Pure in the line's readings, watch, charts and the signals before;
 * the same object comes back when nothing changed.
 */
export const signalsOf = (line: Line): Signals => {
  const { readings: r, signals: was, watch, scenario } = line;
  const { plant } = scenario;
  const mix = presentMix(line);
  const cutback = cutbackMix(line);
  const emulsion = emulsionMix(line);
  const interlock = chartValue(line, 'interlock') as ChartValue;
  const burner = chartValue(line, 'burner') as never;
  const campaign = line.campaign;
  const stage = campaignState(line);
  const batch = batchValue(line);
  const verdict = verdictOf(interlock);

  // A tank found to hold no sure emulsion: what was drawn from it before may be cutback, and counts as such.
  const doubted = line.tankMemos.emulsion.holds !== 'emulsion';
  const cutbackInWindow =
    cutback === null
      ? // No cutback is made today: binder in doubt has no window of its own and must be let out to be dumped.
        doubted || was.cutbackInBucket
      : inside(
          was.cutbackInWindow,
          r.cutbackTankC,
          cutback.windows.binderC.fromC,
          cutback.windows.binderC.toC,
          WINDOW_MARGIN_C,
        );
  const binderInWindow =
    mix.family === 'cutback'
      ? cutbackInWindow
      : inside(
          was.binderInWindow,
          r.emulsionTankC,
          mix.windows.binderC.fromC,
          mix.windows.binderC.toC,
          WINDOW_MARGIN_C,
        );
  const aggregateC = bindingAggregateC(line);
  const mixerCharged = accountGrams(line, 'mixer') > 0;
  const window = mixerCharged ? mix.windows.aggregateC : drawWindow(mix);
  // While the drum still empties into the holding bin nothing is drawn from it: its weight would say nothing.
  const drumEmptying = !mixerCharged && accountGrams(line, 'dryer') > 0;
  const aggregateInWindow =
    !drumEmptying && inside(was.aggregateInWindow, aggregateC, window.fromC, window.toC, WINDOW_MARGIN_C);
  // Once binder has met the aggregate, the probe reads mix; whether the aggregate was too hot is settled by then.
  const binderAdded = was.cutbackInMixer || (line.batch !== null && line.batch.mixedTicks > 0);
  const exposedC = mixerCharged ? r.mixC : r.holdingBinKg > 20 ? r.holdingBinC : r.ambientC;
  const binderWeighed = allWeighed(line.weighers.binderWeigher, weigherState(line, 'binderWeigher'));
  const extractionProved = rises(
    was.extractionProved,
    r.hoodFlowM3S,
    plant.hood.provedM3S * 1.02,
    plant.hood.provedM3S,
  );

  const out = line.outputs;
  const cutbackInBucket =
    out.cutbackFeed !== 'shut' ||
    ((was.cutbackInBucket || doubted) &&
      (watch.bucketEmptyTicks < BELIEVED.bucketEmpty || watch.bucketAtMostKg > 0));
  const binderValveShut = r.bucketValveShut === 1;
  const mixerFed =
    out.hopperTo === 'mixer' ||
    out.holdingGate !== 'shut' ||
    out.waterValve ||
    out.antiStripPump ||
    out.bucketValve;
  const mixerEmpty = mixerFed ? false : was.mixerEmpty || watch.mixerEmptyTicks >= BELIEVED.mixerEmpty;
  const cutbackInMixer =
    (cutbackInBucket && (out.bucketValve || !binderValveShut)) ||
    ((was.cutbackInMixer || (doubted && (line.batch?.mixedTicks ?? 0) > 0)) && !mixerEmpty);

  const dried = dryingMix(line);
  const binPerBatchKg = dried === null ? 0 : dryTargets(dried).dryKg;
  const drawing = line.batch !== null && batch.step !== 'ready' && drawsDried(mix);
  const hopperEmpty = watch.hopperEmptyTicks >= BELIEVED.hopperEmpty;
  const bucketEmpty = watch.bucketEmptyTicks >= BELIEVED.bucketEmpty && watch.bucketAtMostKg <= 0;
  const oilSetC = plant.oilHeater.setC;
  const emulsionSetC = emulsion?.windows.tankSetC ?? 15;
  const cutbackSetC = cutback?.windows.tankSetC ?? 60;

  const outC = dried?.drying?.outC ?? 105;

  const next: Signals = {
    drumFanProved: r.drumAirM3S >= plant.dryer.fanM3S * FAN_PROVED_SHARE && !drumFlowLies(watch),
    purged: watch.purgeVolumes >= plant.dryer.purgeVolumes,
    flameSeen: r.flameSeen === 1,
    fuelShut: r.fuelValveShut === 1,
    drumDry: accountGrams(line, 'dryer') > 0 && r.drumAggregateC >= outC,
    drumLoaded: accountGrams(line, 'dryer') > 0,
    drumTooHot:
      rises(was.drumTooHot, r.drumAggregateC, outC + DRUM_OVER_C, outC + DRUM_OVER_C - 10) ||
      rises(was.drumTooHot, r.drumExhaustC, EXHAUST_OVER_C, EXHAUST_OVER_C - 40) ||
      isDead(r, 'drumAggregateC'),
    drumEmpty: watch.holdingBinStillTicks >= BELIEVED.drumEmpty,
    extractionProved,
    vapourLow: was.vapourLow
      ? r.vapourLelPct < plant.limits.vapourWarnLelPct
      : r.vapourLelPct < plant.limits.vapourWarnLelPct - 1,
    vapourHigh: rises(
      was.vapourHigh,
      r.vapourLelPct,
      plant.limits.vapourTripLelPct,
      plant.limits.vapourTripLelPct - 1,
    ),
    detectorOk: r.vapourDetectorOk === 1,
    aggregateOverLimit:
      mixerCharged && binderAdded
        ? was.aggregateOverLimit
        : exposedC > plant.limits.aggregateMaxC - (was.aggregateOverLimit ? BINDER_WARMS_BY_C : 0) ||
          exposedC <= DEAD_PROBE_C,
    cutbackInWindow,
    cutbackInBucket,
    cutbackInMixer,
    binderValveShut,
    binderValveAskedOpen: out.bucketValve,
    fuelAskedOpen: out.burnerPilot || out.burnerMain !== 'shut',
    emergencyStop: r.emergencyStop === 1,
    powerOk: r.powerOk === 1,
    detectorCalibrated: isCalibrated(line),
    hotWorkOpen: line.maintenance.permit !== null,
    emulsionKnown: isTankKnown(line.tankMemos.emulsion, 'emulsion'),
    cutbackKnown: isTankKnown(line.tankMemos.cutback, 'cutback'),
    flamePermitted: verdict.burnerMayFire,
    tripped: verdict.tripped,
    heatWanted:
      heatIsWanted(chartValue(line, 'emulsionTank') as never) ||
      heatIsWanted(chartValue(line, 'cutbackTank') as never),
    oilFlowing: r.oilFlowing === 1,
    oilFlameSeen: r.oilFlameSeen === 1,
    oilHot: rises(was.oilHot, r.oilC, oilSetC, oilSetC - OIL_BAND_C),
    oilOverLimit:
      isDead(r, 'oilC') || rises(was.oilOverLimit, r.oilC, oilSetC + OIL_OVER_C, oilSetC + OIL_OVER_C - 5),
    emulsionCovered:
      isInhibited(line, 'TE-01') ||
      coverMm(r.emulsionDipMm, plant.tanks.emulsion.coilTopM) >= coverNeededMm(plant, 'emulsion'),
    cutbackCovered: coverMm(r.cutbackDipMm, plant.tanks.cutback.coilTopM) >= coverNeededMm(plant, 'cutback'),
    emulsionDelivery: line.tankMemos.emulsion.delivery !== null,
    cutbackDelivery: line.tankMemos.cutback.delivery !== null,
    emulsionDrawn:
      out.emulsionFeed !== 'shut' &&
      !heaterRulesOf(plant, 'emulsion').heatsWhileDrawn &&
      !isInhibited(line, 'TE-05'),
    cutbackDrawn: out.cutbackFeed !== 'shut' && !heaterRulesOf(plant, 'cutback').heatsWhileDrawn,
    emulsionVentHigh: ventHigh(was.emulsionVentHigh, r.ventLelPct, plant, 'emulsion'),
    cutbackVentHigh: ventHigh(was.cutbackVentHigh, r.ventLelPct, plant, 'cutback'),
    emulsionDry: !line.tankMemos.emulsion.foamed,
    cutbackDry:
      !line.tankMemos.cutback.foamed &&
      (r.cutbackWaterMm < WATER_FOUND_MM || cutbackSetC + TANK_BAND_C <= FOAMS_ABOVE_C),
    emulsionMayHeat: tankMayAskForHeat(chartValue(line, 'emulsionTankInterlock') as ChartValue),
    cutbackMayHeat: tankMayAskForHeat(chartValue(line, 'cutbackTankInterlock') as ChartValue),
    emulsionWarm: rises(was.emulsionWarm, r.emulsionTankC, emulsionSetC, emulsionSetC - TANK_BAND_C),
    cutbackWarm: rises(was.cutbackWarm, r.cutbackTankC, cutbackSetC, cutbackSetC - TANK_BAND_C),
    emulsionOverLimit:
      isDead(r, 'emulsionTankC') ||
      watch.emulsionStillS >= STILL_ENOUGH_S ||
      rises(was.emulsionOverLimit, r.emulsionTankC, EMULSION_MAX_C, EMULSION_MAX_C - 2),
    cutbackOverLimit:
      isDead(r, 'cutbackTankC') ||
      watch.cutbackStillS >= STILL_ENOUGH_S ||
      rises(
        was.cutbackOverLimit,
        r.cutbackTankC,
        cutback?.windows.binderC.toC ?? 95,
        (cutback?.windows.binderC.toC ?? 95) - 2,
      ),
    aggregatesWeighed:
      line.weighers.aggregateWeigher.purpose === 'batch' &&
      allWeighed(line.weighers.aggregateWeigher, weigherState(line, 'aggregateWeigher')),
    hopperEmpty,
    dryWeighed: allWeighed(line.weighers.dryWeigher, weigherState(line, 'dryWeigher')),
    binderWeighed,
    bucketEmpty,
    waterDelivered:
      line.batch !== null &&
      line.batch.waterFromL !== null &&
      r.waterMeterL - line.batch.waterFromL >= line.batch.waterTargetL - 0.15,
    antiStripDelivered:
      line.batch !== null &&
      line.batch.antiStripFromKg !== null &&
      r.antiStripMeterKg - line.batch.antiStripFromKg >= line.batch.antiStripTargetKg - 0.005,
    aggregateInWindow,
    binderInWindow,
    readyForBinder:
      aggregateInWindow &&
      binderInWindow &&
      binderWeighed &&
      !verdict.tripped &&
      (mix.family === 'emulsion' || verdict.binderMayFlow),
    mixerEmpty,
    allEmpty: hopperEmpty && bucketEmpty && mixerEmpty,
    drumCharged: accountGrams(line, 'dryer') > 0 && hopperEmpty,
    mixerTurning: r.mixerMotorA > plant.mixer.idleA * 0.5,
    weightOutOfTolerance:
      meterStalled(line) ||
      isOutOfTolerance(weigherState(line, 'aggregateWeigher')) ||
      isOutOfTolerance(weigherState(line, 'dryWeigher')) ||
      isOutOfTolerance(weigherState(line, 'binderWeigher')),
    enoughDried:
      campaign === null ||
      r.holdingBinKg >= campaign.wantedKg ||
      r.holdingBinKg + (dried?.drying?.chargeKg ?? 0) > plant.holdingBin.capacityKg,
    burnerRunning: burnerIsRunning(burner),
    burnerLockedOut: burnerIsLockedOut(burner),
    burnerAtRest: burnerIsOff(burner),
    burnerOff: burnerIsOff(burner) && regionState(interlock, 'dryer') === 'purged',
    holdingBinCool: dried !== null && r.holdingBinC <= drawWindow(dried).toC - WINDOW_MARGIN_C,
    holdingBinUsed:
      (stage === 'available' || stage === 'cooling' || stage === 'runningOut') &&
      !drawing &&
      accountGrams(line, 'dryer') === 0 &&
      r.holdingBinKg < (stage === 'runningOut' ? RUN_OUT_KG : binPerBatchKg),
  };
  for (const name in next) if (next[name as keyof Signals] !== was[name as keyof Signals]) return next;
  return was;
};
