/**
 * The unguarded twin: the same plant from the moment the interlock first stepped in, under the same commands and the
 * same faults, with no gate and no interlock. A model of the simulated plant, made for the debrief.
 */
import type { FieldAsk, Outputs } from '../field/outputs.ts';
import type { Command } from '../line/commands.ts';
import { type Line, TICK_MS } from '../line/line.types.ts';
import { presentMix, targetsOf } from '../line/lookup.ts';
import { mixKgOf } from '../plant/mill-contents.ts';
import { type Plant, stepPlant } from '../plant/plant.ts';
import { truthOf } from '../plant/truth.ts';
import type { Mix } from '../scenario/mix.schema.ts';
import type { TwinView, VapourSample } from './debrief.types.ts';
import { truthNow } from './holds.ts';
import { SAMPLE_TICKS } from './noting.ts';
import type { DrillRun, TwinStart } from './run.types.ts';
import { movedOn, outputsOf, type TwinControls, type TwinStep, told } from './twin-controls.ts';
import { clock } from './words.ts';

/** The twin runs on at least so long after the moment, and at most so long, s. */
const LEAST_S = 240;
const MOST_S = 900;
/** Solvent below this in the mill is no binder any more, kg. */
const SOME_SOLVENT_KG = 0.05;

const STEPS: { readonly [step: string]: TwinStep } = {
  waitingForBinder: 'filling',
  antiStripping: 'filling',
  charging: 'drawing',
  addingBinder: 'adding',
  mixing: 'mixing',
  looking: 'mixing',
  extraMixing: 'mixing',
  discharging: 'discharging',
  clearing: 'discharging',
  dumping: 'discharging',
  dumpClearing: 'discharging',
};

/** The controls as the moment found them. */
const controlsAt = (start: TwinStart, mix: Mix, binderKg: number, stoneKg: number): TwinControls => {
  const { plant } = start;
  const loaded = mixKgOf(plant.mill) > 5;
  return {
    step: loaded ? (STEPS[start.step] ?? 'rest') : 'rest',
    stepTicks: 0,
    binder: mix.family,
    binderKg,
    stoneKg,
    mixTicks: mix.times.binderMixS * 10,
    bay: start.bay,
    held: false,
    burningTicks: plant.dryer.burner.mainLit || plant.dryer.burner.pilotLit ? 1000 : null,
  };
};

/** What an accepted command asks of the field at once, beside the outputs; `undefined` for most. */
const askOf = (command: Command): FieldAsk | undefined =>
  command.do === 'emergencyStop' || command.do === 'releaseEmergencyStop'
    ? { ask: 'emergencyStop', pressed: command.do === 'emergencyStop' }
    : undefined;

const vapourOf = (plant: Plant, tick: number): VapourSample => ({
  atMs: tick * TICK_MS,
  vapourLelPct: Math.round(truthNow(plant, 'hoodLelPct') * 100) / 100,
  flame: truthNow(plant, 'dryerFlame') === 1,
  solventKg: Math.round(plant.mill.solventKg * 1000) / 1000,
});

const CAUTION =
  'A model: the simulated plant run again without its interlock. A real plant may be better or far worse; nothing here says what is safe.';

const wordsOf = (
  samples: readonly VapourSample[],
  start: TwinStart,
  worst: VapourSample,
  guardedWorstLelPct: number,
): string => {
  const both = samples.filter((one) => one.flame && one.solventKg > SOME_SOLVENT_KG);
  const after = (at: number): string => clock((at - start.tick * TICK_MS) / TICK_MS);
  const higher = worst.vapourLelPct > guardedWorstLelPct + 1;
  const vapour = higher
    ? `Vapour under the hood would have reached ${worst.vapourLelPct.toFixed(0)} % of its lower explosive limit, ${after(worst.atMs)} after the moment`
    : 'Vapour under the hood would have been no higher than it was';
  const [first] = both;
  if (first === undefined) return `${vapour}. No flame would have met it.`;
  const s = (both.length * SAMPLE_TICKS) / 10;
  const most = both.reduce((kg, one) => Math.max(kg, one.solventKg), 0);
  return `A flame would have burned in the dryer for ${s.toFixed(0)} s with up to ${most.toFixed(1)} kg of solvent in the pug mill, from ${after(first.atMs)} after the moment. ${vapour}.`;
};

/** Turns the twin; null when the interlock never stepped in. Pure, and reads the run only. */
export const twinOf = (run: DrillRun): TwinView | null => {
  const { twin } = run;
  if (twin === null) return null;
  const line: Line = run.world.line;
  const mix = line.scenario.mixes.find((one) => one.id === twin.mix) ?? presentMix(line);
  const { binderKg, dryKg } = targetsOf(line, mix);
  let controls = controlsAt(twin, mix, binderKg, dryKg);
  let { plant } = twin;
  const endTick = Math.min(
    twin.tick + MOST_S * 10,
    Math.max(run.ended?.tick ?? run.world.tick, twin.tick + LEAST_S * 10),
  );
  const asks = run.asks.filter((one) => one.tick >= twin.tick);
  const did = run.did.filter((one) => one.tick >= twin.tick);
  let asked: Outputs = run.asked[0]?.wanted ?? line.wanted;
  let nextAsk = 0;
  let nextDid = 0;
  let nextAsked = 0;
  const unguarded: VapourSample[] = [];
  for (let { tick } = twin; tick < endTick; tick += 1) {
    const now: FieldAsk[] = [];
    for (; asks[nextAsk] !== undefined && (asks[nextAsk]?.tick ?? 0) <= tick; nextAsk += 1)
      now.push((asks[nextAsk] as (typeof asks)[number]).ask);
    for (; did[nextDid] !== undefined && (did[nextDid]?.tick ?? 0) <= tick; nextDid += 1) {
      const { command, because } = did[nextDid] as (typeof did)[number];
      // Refused or not, it was asked for, and nothing here refuses; only the seat and the shift still count.
      controls = told(controls, command);
      const ask = because.length === 0 ? askOf(command) : undefined;
      if (ask !== undefined) now.push(ask);
    }
    for (; (run.asked[nextAsked]?.tick ?? Number.POSITIVE_INFINITY) <= tick; nextAsked += 1)
      asked = run.asked[nextAsked]?.wanted ?? asked;
    if ((tick - twin.tick) % SAMPLE_TICKS === 0) unguarded.push(vapourOf(plant, tick));
    plant = stepPlant(plant, outputsOf(controls, asked), now);
    controls = movedOn(controls, plant);
  }
  const guarded = run.samples
    .filter((one) => one.tick >= twin.tick - SAMPLE_TICKS && one.tick <= endTick)
    .map(({ tick, vapourLelPct, flame, solventKg }) => ({
      atMs: tick * TICK_MS,
      vapourLelPct,
      flame,
      solventKg,
    }));
  const worst = unguarded.reduce((most, one) => (one.vapourLelPct > most.vapourLelPct ? one : most));
  const guardedWorstLelPct = guarded.reduce((most, one) => Math.max(most, one.vapourLelPct), 0);
  const met = unguarded.find((one) => one.flame && one.solventKg > SOME_SOLVENT_KG);
  return {
    because: twin.because,
    fromMs: twin.tick * TICK_MS,
    guarded,
    unguarded,
    flameWithSolventMs: met?.atMs ?? null,
    worstLelPct: worst.vapourLelPct,
    guardedWorstLelPct,
    massErrorKg: truthOf(plant).errorKg,
    words: wordsOf(unguarded, twin, worst, guardedWorstLelPct),
    caution: CAUTION,
  };
};
