/** The line as a console draws it. Sections whose inputs did not change keep their identity, so little is sent. */
import type { AnyMachineSnapshot } from 'xstate';
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import { ALARMS } from './alarms.ts';
import { activeNodes } from './chart-kit.ts';
import { countsOf } from './handover.ts';
import { type BatchDone, type ChartId, type Line, type Lot, TICK_MS } from './line.types.ts';
import { campaignState, chartOf, chartValue, mixById } from './lookup.ts';
import { CHART_IDS, machineOf } from './machines.ts';
import { causesView, maintenanceView, permitViews, tankCareViews } from './view/care.ts';
import { interlockView } from './view/interlock.ts';
import { nowView } from './view/now.ts';
import { plantView, weightViews } from './view/plant.ts';
import { samplePrompts } from './view/sample-prompts.ts';
import { tempViews } from './view/temps.ts';
import type { AlarmView, BatchView, ChartView, LineView, LotView, SeatView } from './view.types.ts';

const ORDER: readonly AlarmView['state'][] = [
  'unacknowledged',
  'returned unacknowledged',
  'acknowledged',
  'shelved',
  'suppressed by design',
  'out of service',
];
const PRIORITY: readonly AlarmView['priority'][] = ['high', 'medium', 'low'];

const alarmViews = (line: Line): readonly AlarmView[] =>
  ALARMS.flatMap((alarm): AlarmView[] => {
    const state = alarmState(chartValue(line, `alarm:${alarm.id}` as ChartId) as never);
    if (state === 'normal') return [];
    const memo = line.alarms[alarm.id];
    return [
      {
        id: alarm.id,
        priority: alarm.priority,
        text: alarm.text,
        action: alarm.action,
        state,
        sinceMs: (memo?.sinceTick ?? line.tick) * TICK_MS,
        until: memo?.untilTick === null || memo === undefined ? null : memo.untilTick * TICK_MS,
      },
    ];
  }).sort(
    (a, b) =>
      ORDER.indexOf(a.state) - ORDER.indexOf(b.state) ||
      PRIORITY.indexOf(a.priority) - PRIORITY.indexOf(b.priority) ||
      b.sinceMs - a.sinceMs,
  );

const lotView = (line: Line, lot: Lot): LotView => ({
  id: lot.id,
  mix: mixById(line, lot.mixId).name,
  family: lot.family,
  state: lot.state,
  massKg: lot.grams / 1000,
  ofKg: lot.ofKg,
  batches: lot.batches,
  bay: lot.bay,
  // Where a sample falls is not shown before it is due: nobody may choose the easy batch.
  samples: lot.samples.map((sample) => ({
    n: sample.n,
    test: sample.test,
    atKg: sample.state === 'ahead' ? null : sample.atKg,
    batch: sample.batch,
    state: sample.state,
  })),
});

const batchView = (line: Line, sheet: BatchDone): BatchView => ({
  n: sheet.n,
  lot: sheet.lot,
  bay: sheet.bay,
  fromMs: sheet.fromTick * TICK_MS,
  toMs: sheet.toTick * TICK_MS,
  massKg: sheet.grams / 1000,
  mixC: sheet.mixC,
  mixedS: sheet.mixedS,
  coatedPct: sheet.coatedPct,
  parts: sheet.parts.map((part) => ({
    material: part.material,
    targetKg: part.targetKg,
    weighedKg: part.weighedKg,
    accepted:
      part.accepted === null ? '' : `${nameOf(line, part.accepted.by.person)}: ${part.accepted.reason}`,
  })),
  dumped: sheet.dumped,
});

/** Sheets do not change once filed: each list of them is drawn up once. */
const batchViews = new WeakMap<Line['sheets'], readonly BatchView[]>();

const batchViewsOf = (line: Line): readonly BatchView[] => {
  let views = batchViews.get(line.sheets);
  if (views === undefined) {
    views = line.sheets.map((sheet) => batchView(line, sheet));
    batchViews.set(line.sheets, views);
  }
  return views;
};

const nameOf = (line: Line, person: string): string =>
  line.scenario.people.find((one) => one.id === person)?.name ?? person;

const named = (line: Line, who: { person: string; console: string } | null) => {
  if (who === null) return null;
  const person = line.scenario.people.find((one) => one.id === who.person);
  return {
    person: who.person,
    name: person?.name ?? who.person,
    role: person?.role ?? ('operator' as const),
    console: who.console,
  };
};

const seatView = (line: Line): SeatView => ({
  holder: named(line, line.seat.holder),
  askedBy: named(line, line.seat.askedBy),
  standIn: line.seat.standIn,
});

const chartViews = (line: Line): readonly ChartView[] =>
  CHART_IDS.map((id) => ({
    id,
    machine: machineOf(line, id).id,
    active: activeNodes(chartOf(line, id) as AnyMachineSnapshot),
  }));

const madeGrams = (line: Line): number => line.lots.reduce((sum, lot) => sum + lot.grams, 0);

export const viewLine = (line: Line): LineView => {
  const { shift, plant } = line.scenario;
  const { campaign } = line;
  const stage = campaignState(line);
  return {
    shift: {
      id: shift.id,
      name: shift.name,
      plantName: plant.name,
      date: shift.date,
      startsAt: shift.startsAt,
      hours: shift.hours,
      atMs: line.tick * TICK_MS,
      ended: line.ended,
      batchesDone: line.batchesDone,
      madeKg: madeGrams(line) / 1000,
    },
    now: nowView(line),
    campaign:
      campaign === null || stage === 'idle'
        ? null
        : {
            n: campaign.n,
            step: stage,
            batchesWorth: campaign.batches,
            driedKg: line.readings.holdingBinKg,
            wantedKg: campaign.wantedKg,
          },
    weights: weightViews(line),
    temps: tempViews(line),
    plant: plantView(line),
    interlock: interlockView(line),
    causes: causesView(line),
    maintenance: maintenanceView(line),
    permits: permitViews(line),
    tanks: tankCareViews(line),
    alarms: alarmViews(line),
    counts: countsOf(line.books),
    lots: line.lots.map((lot) => lotView(line, lot)),
    samplePrompts: samplePrompts(line),
    batches: batchViewsOf(line),
    orders: line.orders.map((order) => {
      const mix = mixById(line, order.mixId);
      return {
        n: order.n,
        mix: mix.id,
        mixName: mix.name,
        family: mix.family,
        tonnes: order.tonnes,
        madeKg: order.madeGrams / 1000,
        bay: order.bay,
        chosen: order.n === line.order,
      };
    }),
    seat: seatView(line),
    ribbon: { blocks: line.blocks, marks: line.marks },
    charts: chartViews(line),
    refusals: line.refusals.map((refusal) => ({
      atMs: refusal.tick * TICK_MS,
      by: nameOf(line, refusal.by),
      command: refusal.command,
      because: refusal.because,
    })),
  };
};
