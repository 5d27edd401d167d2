/** One step in the making: a shallow copy of the line whose fields are replaced, and what came of it. */
import type { AnyMachineSnapshot, AnyStateMachine } from 'xstate';
import type { FieldAsk } from '../field/outputs.ts';
import { begin, send } from './chart-kit.ts';
import { delayTicks } from './delays.ts';
import type { Fact, Who } from './facts.ts';
import type { ChartId, Line, Timer } from './line.types.ts';
import { chartOf } from './lookup.ts';
import { machineOf } from './machines.ts';

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** Fields of `line` are replaced, never changed in place, so the line before stays whole. */
export type Work = {
  /** The line this step began from. */
  readonly before: Line;
  readonly line: Mutable<Line>;
  readonly facts: Fact[];
  readonly asks: FieldAsk[];
  /** Who accepts the weight now being judged, while an acceptance is carried out. */
  accepting: { readonly by: Who; readonly reason: string } | null;
};

export const workOn = (line: Line): Work => ({
  before: line,
  line: { ...line },
  facts: [],
  asks: [],
  accepting: null,
});

export const tell = (work: Work, fact: Fact): void => {
  work.facts.push(fact);
};

const withOrders = (
  line: Line,
  chart: ChartId,
  orders: ReturnType<typeof send>['timers'],
): readonly Timer[] => {
  if (orders.length === 0) return line.timers;
  let timers = line.timers;
  for (const order of orders) {
    timers = timers.filter((timer) => timer.chart !== chart || timer.id !== order.id);
    if (order.order === 'start') {
      const ticks = delayTicks(line, chart, order.delay, order.ms);
      timers = [
        ...timers,
        { chart, id: order.id, eventType: order.eventType, leftTicks: ticks, ofTicks: ticks },
      ];
    }
  }
  return timers;
};

const keepChart = (line: Work['line'], chart: ChartId, snapshot: AnyMachineSnapshot): void => {
  if (chart.startsWith('alarm:')) line.alarmCharts = { ...line.alarmCharts, [chart]: snapshot };
  else line.charts = { ...line.charts, [chart]: snapshot };
};

/** Sends one event to one chart; true when it moved. Reactions are the caller's. */
export const moveChart = (
  work: Work,
  chart: ChartId,
  eventType: string,
): { before: AnyMachineSnapshot; after: AnyMachineSnapshot } | null => {
  const { line } = work;
  const before = chartOf(line, chart);
  if (before === undefined) throw new Error(`no chart named ${chart}`);
  const moved = send(machineOf(line, chart), before, eventType);
  if (moved.snapshot === before && moved.timers.length === 0) return null;
  keepChart(line, chart, moved.snapshot);
  line.timers = withOrders(line, chart, moved.timers);
  return { before, after: moved.snapshot };
};

/** Puts a chart at its first state (or another machine in its place), dropping its timers. */
export const beginChart = (work: Work, chart: ChartId, machine: AnyStateMachine): void => {
  const { line } = work;
  const first = begin(machine);
  keepChart(line, chart, first.snapshot);
  line.timers = line.timers.filter((timer) => timer.chart !== chart);
  line.timers = withOrders(line, chart, first.timers);
};
