/** A line at the start of a shift, and the same line to and from plain JSON. */

import type { AnyMachineSnapshot } from 'xstate';
import { SIGNAL_NAMES, type Signals } from '../charts/signals.ts';
import { AT_REST } from '../field/outputs.ts';
import { type Readings, TAG_NAMES } from '../field/tags.ts';
import type { Scenario } from '../scenario/shift.schema.ts';
import { begin, restore } from './chart-kit.ts';
import type { Line } from './line.types.ts';
import { CHART_IDS, machineOf } from './machines.ts';
import { firstMaintenance } from './maintenance.ts';
import { firstTankMemos } from './tank-care.ts';
import { START_WATCH } from './watch.ts';
import { IDLE_WEIGHER } from './weighing.ts';
import { beginChart, type Work, workOn } from './work.ts';

/** Nothing is known to be safe before it has been read; the vessels are handed over empty and clean. */
const START_SIGNALS: Signals = {
  ...(Object.fromEntries(SIGNAL_NAMES.map((name) => [name, false])) as Signals),
  mixerEmpty: true,
};

/** Readings before anything was read: nothing is proved, nothing is weighed. */
const UNREAD = Object.fromEntries(TAG_NAMES.map((tag) => [tag, 0])) as Readings;

/** The line before its first tick: nothing has been read yet, so nothing is permitted. */
export const createLine = (scenario: Scenario, seed: number): Line => {
  const blank: Line = {
    scenario,
    tick: 0,
    random: seed >>> 0,
    readings: UNREAD,
    signals: START_SIGNALS,
    watch: START_WATCH,
    charts: {},
    alarmCharts: {},
    timers: [],
    wanted: AT_REST,
    outputs: AT_REST,
    held: [],
    unsettled: true,
    weighers: { aggregateWeigher: IDLE_WEIGHER, dryWeigher: IDLE_WEIGHER, binderWeigher: IDLE_WEIGHER },
    batch: null,
    batchesDone: 0,
    sheets: [],
    spoilt: 0,
    batchesAhead: 0,
    campaign: null,
    campaigns: 0,
    lots: [],
    orders: scenario.shift.orders.map((order, i) => ({
      n: i + 1,
      mixId: order.mix,
      tonnes: order.tonnes,
      bay: order.bay,
      madeGrams: 0,
    })),
    order: 1,
    books: {},
    seat: { holder: null, askedBy: null, standIn: null },
    alarms: {},
    shelveMinutes: {},
    ended: false,
    trips: 0,
    samplesTaken: 0,
    zeros: { hopperKg: 0, bucketKg: 0 },
    stepTick: 0,
    stageTick: 0,
    faults: {},
    maintenance: firstMaintenance(scenario),
    tankMemos: firstTankMemos(scenario),
    blocks: [],
    marks: [],
    refusals: [],
  };
  const work: Work = workOn(blank);
  for (const id of CHART_IDS) beginChart(work, id, machineOf(blank, id));
  return work.line;
};

/** The line as JSON; its scenario is left out, as it is kept beside the record. */
export const saveLine = (line: Line): unknown => {
  const { scenario: _scenario, charts, alarmCharts, ...rest } = line;
  const values = Object.fromEntries(
    Object.entries({ ...charts, ...alarmCharts }).map(([id, snapshot]) => [id, snapshot.value]),
  );
  return JSON.parse(JSON.stringify({ ...rest, charts: values }));
};

/** A saved line in its scenario. Throws when a saved chart is in a state this program does not have. */
export const loadLine = (scenario: Scenario, saved: unknown): Line => {
  const { charts: values, ...rest } = saved as Omit<Line, 'scenario' | 'charts' | 'alarmCharts'> & {
    charts: Record<string, unknown>;
  };
  const bare: Line = { ...rest, scenario, charts: {}, alarmCharts: {} };
  const charts: Record<string, AnyMachineSnapshot> = {};
  const alarmCharts: Record<string, AnyMachineSnapshot> = {};
  for (const id of CHART_IDS) {
    const machine = machineOf(bare, id);
    const value = values[id];
    const snapshot = value === undefined ? begin(machine).snapshot : restore(machine, value);
    if (id.startsWith('alarm:')) alarmCharts[id] = snapshot;
    else charts[id] = snapshot;
  }
  return { ...bare, charts, alarmCharts };
};
