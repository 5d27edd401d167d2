/**
 * The interlock on its own: its charts and the gate as the line runs them, over conditions a person ticks.
 * Pure: time comes in as milliseconds, and a desk is never changed, only followed by another.
 */
import type { AnyMachineSnapshot, AnyStateMachine } from 'xstate';
import { burnerDemands, purgeCountHeld } from '../../machines/charts/burner/burner.guards.ts';
import { burnerMachine } from '../../machines/charts/burner/burner.machine.ts';
import {
  burnerMayFire,
  type ChartValue,
  isTripped,
} from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { flameInterlockMachine } from '../../machines/charts/flame-interlock/flame-interlock.machine.ts';
import type { Signal, Signals } from '../../machines/charts/signals.ts';
import { tankInterlockMachines } from '../../machines/charts/tank-interlock/tank-interlock.machine.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { begin, listensTo, type Moved, send } from '../../machines/line/chart-kit.ts';
import { gate, type HeldElement } from '../../machines/line/gate.ts';
import { signalsFrom, type Tick, type Ticked } from './ticks.ts';

const MACHINES = {
  interlock: flameInterlockMachine,
  burner: burnerMachine,
  cutbackTank: tankInterlockMachines.cutback,
  emulsionTank: tankInterlockMachines.emulsion,
} as const satisfies { readonly [name: string]: AnyStateMachine };
export type DeskChart = keyof typeof MACHINES;
const CHARTS = Object.keys(MACHINES) as readonly DeskChart[];

/** Volumes a purge asks for here, and how fast they go by: faster than any real fan. */
export const PURGE_VOLUMES = 5;
const VOLUMES_PER_S = 1;

export type Asks = { readonly bucketValve: boolean; readonly cutbackFeed: boolean; readonly heat: boolean };

type Timer = {
  readonly chart: DeskChart;
  readonly id: string;
  readonly eventType: string;
  readonly leftMs: number;
};

export type Desk = {
  readonly ticked: Ticked;
  readonly asks: Asks;
  readonly charts: { readonly [C in DeskChart]: AnyMachineSnapshot };
  readonly timers: readonly Timer[];
  readonly purgeVolumes: number;
  readonly outputs: Outputs;
  readonly held: readonly HeldElement[];
};

export const stateOfChart = (desk: Desk, chart: DeskChart): ChartValue =>
  desk.charts[chart].value as ChartValue;

const withMove = (desk: Desk, chart: DeskChart, moved: Moved): Desk => {
  let timers = desk.timers;
  for (const order of moved.timers) {
    timers = timers.filter((timer) => timer.chart !== chart || timer.id !== order.id);
    if (order.order === 'start')
      timers = [...timers, { chart, id: order.id, eventType: order.eventType, leftMs: order.ms }];
  }
  return { ...desk, charts: { ...desk.charts, [chart]: moved.snapshot }, timers };
};

/** One event to one chart. */
const tell = (desk: Desk, chart: DeskChart, eventType: string): Desk =>
  withMove(desk, chart, send(MACHINES[chart], desk.charts[chart], eventType));

const signalsNow = (desk: Desk): Signals =>
  signalsFrom(desk.ticked, desk.outputs, desk.purgeVolumes >= PURGE_VOLUMES, {
    flamePermitted: burnerMayFire(stateOfChart(desk, 'interlock')),
    tripped: isTripped(stateOfChart(desk, 'interlock')),
  });

/** Offers one chart what is true; null when nothing moves it. */
const offered = (desk: Desk, chart: DeskChart): Desk | null => {
  const signals = signalsNow(desk);
  for (const eventType of listensTo(MACHINES[chart], desk.charts[chart])) {
    const [edge = '', name = ''] = eventType.split('.');
    if ((edge !== 'on' && edge !== 'off') || signals[name as Signal] !== (edge === 'on')) continue;
    const next = tell(desk, chart, eventType);
    if (next.charts[chart] !== desk.charts[chart]) return next;
  }
  return null;
};

const counted = (desk: Desk): Desk => {
  const signals = signalsNow(desk);
  const held = purgeCountHeld(stateOfChart(desk, 'burner')) || signals.flameSeen || !signals.fuelShut;
  return held && desk.purgeVolumes > 0 ? { ...desk, purgeVolumes: 0 } : desk;
};

const demanded = (desk: Desk): Outputs => ({
  ...AT_REST,
  ...burnerDemands(stateOfChart(desk, 'burner')),
  bucketValve: desk.asks.bucketValve,
  cutbackFeed: desk.asks.cutbackFeed ? 'full' : 'shut',
  oilPump: desk.asks.heat,
  oilBurner: desk.asks.heat,
  cutbackCoil: desk.asks.heat,
});

/** What the gate makes of these demands as the charts stand. */
export const gated = (desk: Desk, wanted: Outputs = demanded(desk)) =>
  gate(wanted, stateOfChart(desk, 'interlock'), stateOfChart(desk, 'burner'), {
    emulsion: stateOfChart(desk, 'emulsionTank'),
    cutback: stateOfChart(desk, 'cutbackTank'),
  });

const ROUNDS = 200;

/** Charts hear what is true and the gate lets through what it may, until nothing moves. Throws if that never ends. */
export const settled = (from: Desk): Desk => {
  let desk = from;
  for (let round = 0; round < ROUNDS; round += 1) {
    desk = counted(desk);
    const moved = CHARTS.reduce<Desk | null>((next, chart) => next ?? offered(desk, chart), null);
    if (moved !== null) {
      desk = moved;
      continue;
    }
    const { outputs, held } = gated(desk);
    const same = JSON.stringify(outputs) === JSON.stringify(desk.outputs);
    desk = { ...desk, outputs, held };
    if (same) return desk;
  }
  throw new Error('the charts of the desk do not settle');
};

/** A plant at rest: everything proved, nothing asked for. */
export const openDesk = (): Desk => {
  const begun = Object.fromEntries(CHARTS.map((chart) => [chart, begin(MACHINES[chart])])) as Record<
    DeskChart,
    Moved
  >;
  const first: Desk = {
    ticked: new Set(),
    asks: { bucketValve: false, cutbackFeed: false, heat: false },
    charts: Object.fromEntries(CHARTS.map((chart) => [chart, begun[chart].snapshot])) as Desk['charts'],
    timers: [],
    purgeVolumes: 0,
    outputs: AT_REST,
    held: [],
  };
  const hearing = settled(CHARTS.reduce((desk, chart) => withMove(desk, chart, begun[chart]), first));
  // The count was seen at zero, then complete: the drum of a plant at rest is purged.
  return settled(
    tell(settled({ ...hearing, purgeVolumes: PURGE_VOLUMES }), 'interlock', 'line.signalsKnown'),
  );
};

/** What is asked for and held back is asked for no longer: nothing opens by itself once its cause has gone. */
const withdrawn = (desk: Desk): Desk => {
  const isHeld = (key: keyof Outputs): boolean => desk.held.some((one) => one.key === key);
  const asks: Asks = {
    bucketValve: desk.asks.bucketValve && !isHeld('bucketValve'),
    cutbackFeed: desk.asks.cutbackFeed && !isHeld('cutbackFeed'),
    heat: desk.asks.heat && !isHeld('cutbackCoil') && !isHeld('oilBurner'),
  };
  return { ...settled({ ...desk, asks }), held: desk.held };
};

export const withTick = (desk: Desk, tick: Tick, on: boolean): Desk => {
  const ticked = new Set(desk.ticked);
  if (on) ticked.add(tick);
  else ticked.delete(tick);
  return withdrawn(settled({ ...desk, ticked }));
};

export const withAsk = (desk: Desk, ask: keyof Asks, on: boolean): Desk =>
  withdrawn(settled({ ...desk, asks: { ...desk.asks, [ask]: on } }));

/** An event a person gives to a chart. */
export const withEvent = (desk: Desk, chart: DeskChart, eventType: string): Desk =>
  withdrawn(settled(tell(desk, chart, eventType)));

/** So many milliseconds on: timers run out, the purge counts on. The same desk when nothing waits for time. */
export const passed = (desk: Desk, ms: number): Desk => {
  const { drumFanProved, flameSeen, fuelShut } = signalsNow(desk);
  const counts =
    drumFanProved &&
    !flameSeen &&
    fuelShut &&
    !purgeCountHeld(stateOfChart(desk, 'burner')) &&
    desk.purgeVolumes < PURGE_VOLUMES;
  if (desk.timers.length === 0 && !counts) return desk;
  let next: Desk = {
    ...desk,
    purgeVolumes: counts
      ? Math.min(PURGE_VOLUMES, desk.purgeVolumes + (VOLUMES_PER_S * ms) / 1000)
      : desk.purgeVolumes,
    timers: desk.timers.map((timer) => ({ ...timer, leftMs: timer.leftMs - ms })),
  };
  for (const timer of next.timers.filter(({ leftMs }) => leftMs <= 0)) {
    if (!next.timers.includes(timer)) continue;
    next = { ...next, timers: next.timers.filter((one) => one !== timer) };
    next = settled(tell(next, timer.chart, timer.eventType));
  }
  return withdrawn(settled(next));
};
