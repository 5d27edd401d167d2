/** What a run notes of the truth as it goes: vapour and flame, lying instruments, and where the interlock stepped in. */

import { CAUSES, type InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import { binderMayFlow, isTripped } from '../charts/flame-interlock/flame-interlock.guards.ts';
import { TAG_NAMES, type Tag } from '../field/tags.ts';
import type { Fact } from '../line/facts.ts';
import { batchValue, chartValue, presentMix } from '../line/lookup.ts';
import { measured } from '../plant/measured.ts';
import type { Plant } from '../plant/plant.types.ts';
import type { World } from '../world/world.ts';
import { truthNow } from './holds.ts';
import type { DrillRun, Physical, Sample, TwinStart } from './run.types.ts';

/** A sample of the truth is kept this often: often enough to draw, seldom enough to keep. */
export const SAMPLE_TICKS = 20;
/** Vapour never above this share of its lower limit where people work: a common limit for ventilation of ovens (from memory: NFPA 86, 25 %). */
export const QUARTER_LEL_PCT = 25;
/** Share of a tank from which the other binder in it counts as a danger of its own. Common practice, no source. */
const SPOILT_SHARE = 0.02;

/** Instruments whose truth is worth keeping: those a drill tampers with, and those that have a fault now. */
const tagsToKeep = (run: DrillRun, plant: Plant): readonly Tag[] => {
  const tags = new Set<Tag>();
  for (const { happening } of run.incidents)
    if (happening.what === 'instrument') tags.add(happening.tag as Tag);
  for (const { place } of plant.instruments.faults) tags.add(TAG_NAMES[place] as Tag);
  for (const tag in run.samples.at(-1)?.tags ?? {}) tags.add(tag as Tag);
  return [...tags];
};

export const sampleOf = (run: DrillRun, world: World): Sample => {
  const { plant } = world;
  const keep = tagsToKeep(run, plant);
  const truths = keep.length === 0 ? [] : measured(plant);
  const tags: { [T in Tag]?: readonly [number, number] } = {};
  for (const tag of keep) {
    const truth = truths[TAG_NAMES.indexOf(tag)] ?? 0;
    tags[tag] = [Math.round(truth * 1000) / 1000, plant.readings[tag]];
  }
  return {
    tick: world.tick,
    vapourLelPct: Math.round(truthNow(plant, 'hoodLelPct') * 100) / 100,
    flame: truthNow(plant, 'dryerFlame') === 1,
    solventKg: Math.round(plant.mill.solventKg * 1000) / 1000,
    tags,
  };
};

const longer = (
  list: readonly Physical[],
  kind: Physical['kind'],
  tick: number,
  ticks: number,
  amount: number,
): readonly Physical[] => {
  const known = list.find((one) => one.kind === kind);
  return known === undefined
    ? [...list, { kind, firstTick: tick, ticks, worst: amount }]
    : list.map((one) =>
        one === known ? { ...known, ticks: known.ticks + ticks, worst: Math.max(known.worst, amount) } : one,
      );
};

/** Dangers that truly were in the plant, whatever its instruments said; each with how long and how much. */
export const physicalAfter = (
  before: readonly Physical[],
  world: World,
  everyTicks: number,
): readonly Physical[] => {
  const { plant, tick } = world;
  let list = before;
  const { solventKg } = plant.mill;
  if (solventKg > 0.001 && truthNow(plant, 'dryerFlame') === 1)
    list = longer(list, 'flame with solvent', tick, everyTicks, solventKg);
  const lelPct = truthNow(plant, 'hoodLelPct');
  if (lelPct > QUARTER_LEL_PCT)
    list = longer(list, 'vapour above a quarter of its limit', tick, everyTicks, lelPct);
  const otherKg = truthNow(plant, 'otherBinderKg');
  const spoilt = [plant.emulsionTank, plant.cutbackTank].some(
    (tank) => tank.otherKg > SPOILT_SHARE * tank.massKg,
  );
  if (spoilt) list = longer(list, 'other binder in a tank', tick, everyTicks, otherKg);
  return list;
};

/** A puff lasts a moment: it is looked for in every tick. */
export const puffAfter = (list: readonly Physical[], before: World, after: World): readonly Physical[] => {
  const { puffs } = after.plant.dryer.burner;
  return puffs > before.plant.dryer.burner.puffs ? longer(list, 'puff', after.tick, 1, puffs) : list;
};

const inWords = (ids: readonly InterlockCauseId[]): string =>
  ids.map((id) => `${id} ${CAUSES[id].words.unmet}`).join('; ');

/** What holds emulsion back keeps no vapour from a flame: there is no twin to show. */
const OF_EMULSION: readonly InterlockCauseId[] = ['FI-23'];

/** Whether the flame interlock steps in at this moment for the first time, and against what, in words. */
export const steppedIn = (before: World, after: World, facts: readonly Fact[]): TwinStart | null => {
  const begin = (because: string): TwinStart => ({
    tick: before.tick,
    because,
    plant: before.plant,
    step: batchValue(before.line).step,
    mix: presentMix(before.line).id,
    bay: before.line.batch?.bay ?? 0,
  });
  for (const fact of facts) {
    if (fact.is === 'tripLatched') return begin(inWords(fact.causes));
    if (fact.is === 'elementHeld' && fact.because.some((id) => !OF_EMULSION.includes(id)))
      return begin(`${fact.element} held back: ${inWords(fact.because)}`);
    if (fact.is === 'commandRefused' && fact.command === 'lightBurner') {
      const named = fact.because.filter((one) => /^F[IT]-\d\d /.test(one));
      if (named.length > 0) return begin(`Lighting the burner was refused: ${named[0]}`);
    }
  }
  const { line } = after;
  const startRefused = facts.find((fact) => fact.is === 'commandRefused' && fact.command === 'start');
  if (
    startRefused?.is === 'commandRefused' &&
    presentMix(line).family === 'cutback' &&
    (line.signals.flameSeen || !line.signals.burnerOff)
  )
    return begin(`Starting cutback was refused: ${startRefused.because[0] ?? ''}`);
  const { step, procedure } = batchValue(line);
  const interlock = chartValue(line, 'interlock') as never;
  if (
    step === 'waitingForBinder' &&
    procedure === 'running' &&
    presentMix(line).family === 'cutback' &&
    line.signals.binderWeighed &&
    line.signals.binderInWindow &&
    !isTripped(interlock) &&
    !binderMayFlow(interlock)
  )
    return begin('Binder was kept from the pug mill: a permissive of the flame interlock was not met');
  return null;
};
