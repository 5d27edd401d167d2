/** Plays a story on the charts and the gate as they are, beside what the broken ones did, and finds where they part. */
import type { AnyMachineSnapshot, AnyStateMachine } from 'xstate';
import { alarmMachine } from '../charts/alarm/alarm.machine.ts';
import { type BatchValue, batchDemands } from '../charts/batch/batch.guards.ts';
import { cutbackBatchMachine } from '../charts/batch/cutback-batch.machine.ts';
import { emulsionBatchMachine } from '../charts/batch/emulsion-batch.machine.ts';
import { warmEmulsionBatchMachine } from '../charts/batch/warm-emulsion-batch.machine.ts';
import { burnerDemands } from '../charts/burner/burner.guards.ts';
import { burnerMachine } from '../charts/burner/burner.machine.ts';
import { campaignDemands } from '../charts/campaign/campaign.guards.ts';
import { type CampaignState, campaignMachine } from '../charts/campaign/campaign.machine.ts';
import {
  burnerMayFire,
  type ChartValue,
  isTripped,
} from '../charts/flame-interlock/flame-interlock.guards.ts';
import { flameInterlockMachine } from '../charts/flame-interlock/flame-interlock.machine.ts';
import { REGIONS } from '../charts/flame-interlock/flame-interlock.regions.ts';
import { lotMachine } from '../charts/lot/lot.machine.ts';
import { oilHeaterDemands } from '../charts/oil-heater/oil-heater.guards.ts';
import { oilHeaterMachine } from '../charts/oil-heater/oil-heater.machine.ts';
import { seatMachine } from '../charts/seat/seat.machine.ts';
import { tankHeaterDemands } from '../charts/tank-heater/tank-heater.guards.ts';
import { tankHeaterMachines } from '../charts/tank-heater/tank-heater.machine.ts';
import { TANK_REGIONS } from '../charts/tank-interlock/tank-interlock.causes.ts';
import { tankMayAskForHeat } from '../charts/tank-interlock/tank-interlock.guards.ts';
import { tankInterlockMachines } from '../charts/tank-interlock/tank-interlock.machine.ts';
import { feedOpening } from '../charts/weigher/weigher.guards.ts';
import { type WeigherState, weigherMachine } from '../charts/weigher/weigher.machine.ts';
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
  /** What the charts as they are ask for, of the elements the broken ones ask for. */
  readonly demands: Partial<Outputs> | null;
  /** Charts that stand elsewhere than the broken ones; whether they ask for something else; whether the gate lets less through. */
  readonly parted: readonly StoryChart[];
  readonly asksElse: boolean;
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

/** What a person reads of the states a chart is in; with `before`, only of those it was not in before. */
export const titlesOf = (chart: StoryChart, value: ChartValue, before?: ChartValue): readonly string[] => {
  const titles = (state: ChartValue): readonly string[] =>
    restore(STORY_MACHINES[chart], state)._nodes.flatMap((node) => {
      const title = (node.meta as { title?: string } | undefined)?.title;
      return title === undefined ? [] : [title];
    });
  const old = before === undefined ? [] : titles(before);
  return titles(value).filter((title) => !old.includes(title));
};

const ROUNDS = 50;

type Now = { [C in StoryChart]?: AnyMachineSnapshot };
const valuesOf = (now: Now): StoryStates =>
  Object.fromEntries(Object.entries(now).map(([chart, snapshot]) => [chart, snapshot.value as ChartValue]));

/** What one chart tells another is a signal too, and is worked out, not told. */
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

/** What each chart asks of the plant in its state; a batch as if bay 1 and nothing in hopper or bucket run empty. */
const demandsOfChart = (chart: StoryChart, value: ChartValue): Partial<Outputs> => {
  switch (chart) {
    case 'burner':
      return burnerDemands(value);
    case 'oilHeater':
      return oilHeaterDemands(value);
    case 'emulsionTank':
      return tankHeaterDemands('emulsion', value);
    case 'cutbackTank':
      return tankHeaterDemands('cutback', value);
    case 'emulsionBatch':
      return batchDemands(value as unknown as BatchValue, 'emulsion', 1, false, false);
    case 'warmEmulsionBatch':
      return batchDemands(value as unknown as BatchValue, 'warmEmulsion', 1, false, false);
    case 'cutbackBatch':
      return batchDemands(value as unknown as BatchValue, 'cutback', 1, false, false);
    case 'campaign':
      return campaignDemands(value as CampaignState, true, true, true);
    case 'weigher':
      return { cutbackFeed: feedOpening(value as WeigherState, false) };
    default:
      return {};
  }
};

/** Of these elements, what the charts as they are ask for that is not at rest. */
const demandedOf = (real: StoryStates, of: object): Partial<Outputs> => {
  const all: Outputs = Object.assign(
    { ...AT_REST },
    ...(Object.entries(real) as [StoryChart, ChartValue][]).map(([chart, value]) =>
      demandsOfChart(chart, value),
    ),
  );
  return Object.fromEntries(Object.entries(notAtRest(all)).filter(([key]) => Object.hasOwn(of, key)));
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
    for (const which of ['demands', 'asked', 'through'] as const)
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
    const demands = step.demands === undefined ? null : demandedOf(real, step.demands);
    const asksElse = demands !== null && !sameState(demands, step.demands);
    if (step.asked === undefined)
      return { step, broken, real, demands, asksElse, through: null, held: [], parted, gateHolds: false };
    const { outputs, held } = gated(now, step.asked as Partial<Outputs>);
    const through = notAtRest(outputs);
    const gateHolds = !sameState(through, step.through ?? {});
    return { step, broken, real, demands, asksElse, through, held, parted, gateHolds };
  });
  const stopsAt = steps.findIndex((one) => one.parted.length > 0 || one.asksElse || one.gateHolds);
  return { steps, stopsAt: stopsAt < 0 ? null : stopsAt };
};
