/**
 * What the unguarded twin asks of its plant: what the trainee and the batch asked for, with nothing that says no.
 *
 * A model for the debrief and nothing else. It shares no code with the line's charts and its gate, drives no line, and
 * stands only here. It does as it is told: lights when told to light, opens the binder valve when the binder is
 * weighed, mixes, discharges, and stops when told to stop.
 */
import { AT_REST, type Outputs } from '../field/outputs.ts';
import type { Command } from '../line/commands.ts';
import { massKgOf } from '../plant/aggregate.ts';
import { bucketHeldKg } from '../plant/bucket.ts';
import { mixKgOf } from '../plant/mill-contents.ts';
import type { Plant } from '../plant/plant.types.ts';

/** Where the batch of the twin is; `rest` when there is none. */
export type TwinStep = 'rest' | 'drawing' | 'filling' | 'adding' | 'mixing' | 'discharging';

export type TwinControls = {
  readonly step: TwinStep;
  readonly stepTicks: number;
  readonly binder: 'emulsion' | 'cutback';
  readonly binderKg: number;
  readonly stoneKg: number;
  readonly mixTicks: number;
  readonly bay: number;
  /** Told to wait: valves and gates shut, mill turning. */
  readonly held: boolean;
  /** Ticks since the burner was told to burn; null while it is out. */
  readonly burningTicks: number | null;
};

const EMPTY_BUCKET_KG = 0.3;
const EMPTY_MILL_KG = 5;
const SCRAPS_KG = 1;
/** Air first, then pilot, then fuel: the burner's own order, without anybody's leave. Common practice, no source. */
const AIR_TICKS = 100;
const PILOT_TICKS = 40;
/** The look through the hatch takes a person about so long. Common practice, no source. */
const LOOK_TICKS = 100;

/** The twin told to do something; what does not concern flame, binder and mill is left out. */
export const told = (controls: TwinControls, command: Command): TwinControls => {
  switch (command.do) {
    case 'lightBurner':
      return controls.burningTicks === null ? { ...controls, burningTicks: 0 } : controls;
    case 'putOutBurner':
    case 'endCampaign':
      return { ...controls, burningTicks: null };
    case 'hold':
    case 'stop':
    case 'abort':
      return { ...controls, held: true };
    case 'restart':
      return { ...controls, held: false };
    case 'start':
      return controls.step === 'rest'
        ? { ...controls, step: 'drawing', stepTicks: 0, held: false }
        : controls;
    case 'dump':
      return controls.step === 'rest'
        ? controls
        : { ...controls, step: 'discharging', stepTicks: 0, held: false, bay: 0 };
    case 'emergencyStop':
      return { ...controls, held: true, burningTicks: null };
    default:
      return controls;
  }
};

const following = (controls: TwinControls, plant: Plant): TwinStep => {
  const { step, stepTicks } = controls;
  switch (step) {
    case 'drawing': {
      const gone = massKgOf(plant.holdingBin.heap) < SCRAPS_KG;
      return gone || mixKgOf(plant.mill) >= controls.stoneKg ? 'filling' : step;
    }
    case 'filling':
      return bucketHeldKg(plant.bucket) >= controls.binderKg ? 'adding' : step;
    case 'adding':
      return bucketHeldKg(plant.bucket) <= EMPTY_BUCKET_KG ? 'mixing' : step;
    case 'mixing':
      return stepTicks >= controls.mixTicks + LOOK_TICKS ? 'discharging' : step;
    case 'discharging':
      return mixKgOf(plant.mill) <= EMPTY_MILL_KG ? 'rest' : step;
    default:
      return step;
  }
};

/** The controls a tick later, seeing the plant as it truly is. */
export const movedOn = (controls: TwinControls, plant: Plant): TwinControls => {
  const burningTicks = controls.burningTicks === null ? null : controls.burningTicks + 1;
  if (controls.held) return burningTicks === controls.burningTicks ? controls : { ...controls, burningTicks };
  const step = following(controls, plant);
  return {
    ...controls,
    burningTicks,
    step,
    stepTicks: step === controls.step ? controls.stepTicks + 1 : 0,
  };
};

const burner = (ticks: number | null): Partial<Outputs> => {
  if (ticks === null) return {};
  if (ticks < AIR_TICKS) return { drumFan: true, drumTurn: true };
  const burnerPilot = ticks < AIR_TICKS + PILOT_TICKS;
  return { drumFan: true, drumTurn: true, burnerPilot, burnerMain: 'low' };
};

const batch = (controls: TwinControls): Partial<Outputs> => {
  if (controls.held) return { pugMill: true };
  switch (controls.step) {
    case 'drawing':
      return { pugMill: true, holdingGate: 'full' };
    case 'filling':
      return { pugMill: true, [controls.binder === 'cutback' ? 'cutbackFeed' : 'emulsionFeed']: 'full' };
    case 'adding':
      return { pugMill: true, bucketValve: true };
    case 'mixing':
      return { pugMill: true };
    case 'discharging':
      return { pugMill: true, mixerGate: true, belt: true, beltToBay: controls.bay };
    default:
      return {};
  }
};

/** What is asked of the twin's plant. Heating and stirring go on as the line asked for them. */
export const outputsOf = (controls: TwinControls, asked: Outputs): Outputs => ({
  ...AT_REST,
  oilPump: asked.oilPump,
  oilBurner: asked.oilBurner,
  emulsionCoil: asked.emulsionCoil,
  cutbackCoil: asked.cutbackCoil,
  emulsionStir: asked.emulsionStir,
  cutbackStir: asked.cutbackStir,
  coolingFan: asked.coolingFan,
  ...batch(controls),
  ...burner(controls.burningTicks),
});
