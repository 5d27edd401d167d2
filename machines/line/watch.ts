/** What must be counted between readings: purge volumes, and how long scales and motor have shown empty. */
import { purgeCountHeld } from '../charts/burner/burner.guards.ts';
import { type Line, TICK_MS, type Watch } from './line.types.ts';
import { netKg } from './lookup.ts';

/** This close to zero a scale counts as empty, kg: a dead cell far below zero does not. Common practice, no source. */
export const EMPTY_HOPPER_KG = 2;
export const EMPTY_BUCKET_KG = 0.3;

/** Counting stops here; the signals need no more. */
const TICKS_ENOUGH = 100;
const VOLUMES_ENOUGH = 12;

/** Vessels are handed over empty; a scale that shows otherwise says so in the first tick. */
export const START_WATCH: Watch = {
  purgeVolumes: 0,
  hopperEmptyTicks: TICKS_ENOUGH,
  bucketEmptyTicks: TICKS_ENOUGH,
  mixerEmptyTicks: 0,
  holdingBinPeakKg: 0,
  holdingBinStillTicks: 0,
};

const counted = (is: boolean, ticks: number): number => (is ? Math.min(TICKS_ENOUGH, ticks + 1) : 0);

/** Volumes of air changed by measured flow since the last flame, open fuel valve or loss of flow. */
const purged = (line: Line): number => {
  const { readings, watch, scenario } = line;
  const { dryer } = scenario.plant;
  if (readings.flameSeen === 1 || readings.fuelValveShut === 0) return 0;
  if (line.outputs.burnerPilot || line.outputs.burnerMain !== 'shut') return 0;
  if (purgeCountHeld(line.charts.burner?.value as never)) return 0;
  if (watch.purgeVolumes >= VOLUMES_ENOUGH || readings.drumAirM3S < dryer.fanM3S * 0.5)
    return watch.purgeVolumes >= dryer.purgeVolumes ? watch.purgeVolumes : 0;
  return watch.purgeVolumes + (readings.drumAirM3S * TICK_MS) / 1000 / dryer.drumVolumeM3;
};

/** The watch one tick later; the same object when nothing counts. */
export const watchOn = (line: Line): Watch => {
  const { readings, watch, outputs, scenario } = line;
  const idleA = scenario.plant.mixer.idleA;
  const turning = readings.mixerMotorA > idleA * 0.5;
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
      outputs.mixerGate && turning && readings.mixerMotorA <= idleA * 1.04 + 0.5,
      watch.mixerEmptyTicks,
    ),
    holdingBinPeakKg: peak,
    holdingBinStillTicks: outputs.drumDischarge
      ? peak > watch.holdingBinPeakKg
        ? 0
        : counted(true, watch.holdingBinStillTicks)
      : 0,
  };
  for (const name in next) if (next[name as keyof Watch] !== watch[name as keyof Watch]) return next;
  return watch;
};
