/** Plays a story on the charts and the gate as they are, beside what the broken ones did, and finds where they part. */
import type { AnyMachineSnapshot, AnyStateMachine } from 'xstate';
import { alarmMachine } from '../charts/alarm/alarm.machine.ts';
import { cutbackBatchMachine } from '../charts/batch/cutback-batch.machine.ts';
import { emulsionBatchMachine } from '../charts/batch/emulsion-batch.machine.ts';
import { warmEmulsionBatchMachine } from '../charts/batch/warm-emulsion-batch.machine.ts';
import { burnerMachine } from '../charts/burner/burner.machine.ts';
import { campaignMachine } from '../charts/campaign/campaign.machine.ts';
import {
  burnerMayFire,
  type ChartValue,
  isTripped,
} from '../charts/flame-interlock/flame-interlock.guards.ts';
import { flameInterlockMachine } from '../charts/flame-interlock/flame-interlock.machine.ts';
import { REGIONS } from '../charts/flame-interlock/flame-interlock.regions.ts';
import { lotMachine } from '../charts/lot/lot.machine.ts';
import { oilHeaterMachine } from '../charts/oil-heater/oil-heater.machine.ts';
import { seatMachine } from '../charts/seat/seat.machine.ts';
import { tankHeaterMachines } from '../charts/tank-heater/tank-heater.machine.ts';
import { TANK_REGIONS } from '../charts/tank-interlock/tank-interlock.causes.ts';
import { tankMayAskForHeat } from '../charts/tank-interlock/tank-interlock.guards.ts';
import { tankInterlockMachines } from '../charts/tank-interlock/tank-interlock.machine.ts';
import { weigherMachine } from '../charts/weigher/weigher.machine.ts';
import { AT_REST, type Outputs } from '../field/outputs.ts';
import type { Story, StoryChart, StoryState, StoryStep } from '../scenario/story.schema.ts';
import { restore, send } from './chart-kit.ts';
import { gate, type HeldElement } from './gate.ts';

export const STORY_MACHINES: { readonly [C in StoryChart]: AnyStateMachine } = {
  interlock: flameInterlockMachine,
  burner: burnerMachine,
  oilHeater: oilHeaterMachine,
  emulsionTankInterlock: tankInterlockMachines.emulsion,
  cutbackTankInterlock: tankInterlockMachines.cutback,
  emulsionTank: tankHeaterMachines.emulsion,
  cutbackTank: tankHeaterMachines.cutback,
  alarm: alarmMachine,
  emulsionBatch: emulsionBatchMachine,
  warmEmulsionBatch: warmEmulsionBatchMachine,
  cutbackBatch: cutbackBatchMachine,
  campaign: campaignMachine,
  weigher: weigherMachine,
  lot: lotMachine,
  seat: seatMachine,
};

export type StoryStates = { readonly [C in StoryChart]?: ChartValue };

export type PlayedStep = {
  readonly step: StoryStep;
  /** Where the broken charts stood after the step, all of them. */
  readonly broken: StoryStates;
  readonly real: StoryStates;
  /** Of what was asked, what the gate as it is lets through, and what it holds back. */
  readonly through: Partial<Outputs> | null;
  readonly held: readonly HeldElement[];
  /** Charts that stand elsewhere than the broken ones, and whether the gate lets less through. */
  readonly parted: readonly StoryChart[];
  readonly gateHolds: boolean;
};

export type PlayedStory = {
  readonly steps: readonly PlayedStep[];
  /** Index of the first step at which the charts or the gate as they are go another way; null when none does. */
  readonly stopsAt: number | null;
};

/** Regions the story does not tell of are at their safe side. */
const SAFE_INTERLOCK: ChartValue = {
  ...Object.fromEntries(Object.entries(REGIONS).map(([region, states]) => [region, states.at(-1) as string])),
  trip: 'watching',
};
const SAFE_TANK: ChartValue = Object.fromEntries(
  Object.entries(TANK_REGIONS).map(([region, states]) => [region, states[1]]),
);

const ROUNDS = 50;

type Now = { [C in StoryChart]?: AnyMachineSnapshot };
const valuesOf = (now: Now): StoryStates =>
  Object.fromEntries(Object.entries(now).map(([chart, snapshot]) => [chart, snapshot.value as ChartValue]));

/** `HEARS_THE_INTERLOCK`: what one chart tells another is a signal too, and is worked out, not told. */
const derived = (now: Now): readonly string[] => {
  const interlock = now.interlock?.value as ChartValue | undefined;
  const edge = (on: boolean, name: string): string => `${on ? 'on' : 'off'}.${name}`;
  return [
    ...(interlock === undefined
      ? []
      : [edge(burnerMayFire(interlock), 'flamePermitted'), edge(isTripped(interlock), 'tripped')]),
    ...(['emulsion', 'cutback'] as const).flatMap((tank) => {
      const value = now[`${tank}TankInterlock`]?.value as ChartValue | undefined;
      return value === undefined ? [] : [edge(tankMayAskForHeat(value), `${tank}MayHeat`)];
    }),
  ];
};

const tellAll = (now: Now, eventType: string): Now => {
  const next: Now = {};
  for (const [chart, snapshot] of Object.entries(now) as [StoryChart, AnyMachineSnapshot][])
    next[chart] = send(STORY_MACHINES[chart], snapshot, eventType).snapshot;
  return next;
};

/** Offers what stands, and what follows from it, until nothing moves; a story that never settles is cut short. */
const offerAll = (from: Now, offers: readonly string[]): Now => {
  let now = from;
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = JSON.stringify(valuesOf(now));
    for (const eventType of offers) now = tellAll(now, eventType);
    for (const eventType of derived(now)) now = tellAll(now, eventType);
    if (JSON.stringify(valuesOf(now)) === before) break;
  }
  return now;
};

/** An event that stands for the word of one chart to another. */
const WORD = 'the heater hears the tank interlock';

const stepOn = (now: Now, step: StoryStep): Now => {
  if (step.offers.length > 0) return offerAll(now, step.offers);
  if (step.event === WORD) return derived(now).reduce(tellAll, now);
  return tellAll(now, step.event);
};

const notAtRest = (outputs: Outputs): Partial<Outputs> =>
  Object.fromEntries(
    Object.entries(outputs).filter(([key, value]) => value !== AT_REST[key as keyof Outputs]),
  );

const gated = (now: Now, asked: Partial<Outputs>) => {
  const wanted: Outputs = { ...AT_REST, ...asked };
  const value = (chart: StoryChart, otherwise: ChartValue): ChartValue =>
    (now[chart]?.value as ChartValue | undefined) ?? otherwise;
  return gate(wanted, value('interlock', SAFE_INTERLOCK), value('burner', 'off'), {
    emulsion: value('emulsionTankInterlock', SAFE_TANK),
    cutback: value('cutbackTankInterlock', SAFE_TANK),
  });
};

const sameState = (one: unknown, other: unknown): boolean => {
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return one === other;
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) =>
      sameState((one as { [key: string]: unknown })[key], (other as { [key: string]: unknown })[key]),
    )
  );
};

/** Why a story cannot be played: states no chart has; empty when it can. */
export const storyTroubles = (
  story: Story,
): readonly { readonly path: readonly (string | number)[]; readonly what: string }[] => {
  const troubles: { path: (string | number)[]; what: string }[] = [];
  const look = (
    path: (string | number)[],
    states: { readonly [C in StoryChart]?: StoryState | undefined },
  ): void => {
    for (const [chart, value] of Object.entries(states) as [StoryChart, StoryState][])
      try {
        restore(STORY_MACHINES[chart], value);
      } catch {
        troubles.push({
          path: [...path, chart],
          what: `${JSON.stringify(value)} is no state of the chart ${chart}`,
        });
      }
  };
  look(['start'], story.start);
  story.steps.forEach((step, index) => {
    look(['steps', index, 'states'], step.states);
    for (const chart of Object.keys(step.states) as StoryChart[])
      if (story.start[chart] === undefined)
        troubles.push({
          path: ['steps', index, 'states', chart],
          what: `${chart} is not among the charts of the start`,
        });
    for (const which of ['asked', 'through'] as const)
      for (const key of Object.keys(step[which] ?? {}))
        if (!Object.hasOwn(AT_REST, key))
          troubles.push({ path: ['steps', index, which, key], what: `there is no element ${key}` });
  });
  return troubles;
};

/** Plays a story from its start. Throws when it names a state no chart has: see `storyTroubles`. */
export const playStory = (story: Story): PlayedStory => {
  let now: Now = {};
  for (const [chart, value] of Object.entries(story.start) as [StoryChart, StoryState][])
    now[chart] = restore(STORY_MACHINES[chart], value);
  let broken: StoryStates = valuesOf(now);
  const steps = story.steps.map((step): PlayedStep => {
    now = stepOn(now, step);
    broken = { ...broken, ...(step.states as StoryStates) };
    const real = valuesOf(now);
    const parted = (Object.keys(real) as StoryChart[]).filter(
      (chart) => !sameState(real[chart], broken[chart]),
    );
    if (step.asked === undefined)
      return { step, broken, real, through: null, held: [], parted, gateHolds: false };
    const { outputs, held } = gated(now, step.asked as Partial<Outputs>);
    const through = notAtRest(outputs);
    return { step, broken, real, through, held, parted, gateHolds: !sameState(through, step.through ?? {}) };
  });
  const stopsAt = steps.findIndex((one) => one.parted.length > 0 || one.gateHolds);
  return { steps, stopsAt: stopsAt < 0 ? null : stopsAt };
};
