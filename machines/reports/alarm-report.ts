/** Alarm performance of one or more shifts against the published figures. */
import { z } from 'zod';
import {
  type AlarmChange,
  byAlarm,
  chatteringOf,
  fleetingOf,
  floodsOf,
  histogramOf,
  peakIn,
  type Raised,
  raisedOf,
} from './alarm-figures.ts';
import { PUBLISHED, type PublishedId, STALE_S } from './alarm-published.ts';
import { alarmPriority, alarmWords, PRIORITIES } from './alarm-words.ts';
import { stampOf } from './clock.ts';
import type { ReportFilter } from './filter.ts';
import { headSchema } from './head.ts';
import { headOf, type ShiftTold } from './head-of.ts';

export const alarmReportSchema = z.object({
  kind: z.literal('alarms'),
  head: headSchema,
  runS: z.number().describe('Running time the figures are over'),
  alarms: z.int().describe('Annunciations: every entry into unacknowledged'),
  figures: z.array(
    z.object({
      id: z.string(),
      words: z.string(),
      value: z.number().nullable(),
      unit: z.string(),
      target: z.string(),
      within: z
        .boolean()
        .nullable()
        .describe('Null where the figure is no limit, or there was nothing to count'),
      source: z.string(),
      status: z.string(),
    }),
  ),
  floods: z.array(
    z.object({
      shift: z.int(),
      from: z.string(),
      to: z.string(),
      fromS: z.number(),
      toS: z.number(),
      alarms: z.int(),
      peak: z.int(),
    }),
  ),
  floodS: z.number(),
  priorities: z.array(
    z.object({ priority: z.enum(PRIORITIES), alarms: z.int(), pct: z.number().nullable() }),
  ),
  byAlarm: z.array(
    z.object({
      alarm: z.string(),
      words: z.string(),
      priority: z.enum(PRIORITIES),
      times: z.int(),
      pct: z.number(),
      stoodS: z.number().describe('In view, summed'),
      longestS: z.number(),
      acknowledged: z.int(),
      meanAckS: z.number().nullable().describe('From raised to acknowledged, where it was'),
      chattering: z.int(),
      fleeting: z.int(),
      standing: z.boolean().describe('In view at the end of its shift'),
    }),
  ),
  shelved: z.array(
    z.object({
      shift: z.int(),
      at: z.string(),
      words: z.string(),
      what: z.string(),
      by: z.string(),
      reason: z.string(),
    }),
  ),
  /** Per shift, alarms in each 10 minutes from its start. */
  histograms: z.array(
    z.object({
      shift: z.int(),
      name: z.string(),
      date: z.string(),
      startsAt: z.string(),
      counts: z.array(z.int()),
    }),
  ),
});
export type AlarmReport = z.infer<typeof alarmReportSchema>;

const TEN_MIN_S = 600;
const HOUR_S = 3600;
const DAY_S = 24 * HOUR_S;

const round = (value: number, digits = 2): number => Number(value.toFixed(digits));
const share = (part: number, whole: number): number | null =>
  whole === 0 ? null : round((part / whole) * 100, 1);

type OfShift = {
  readonly one: ShiftTold;
  readonly raised: readonly Raised[];
  readonly timesS: readonly number[];
  readonly endS: number;
};

/** Stretch of each shift the figures are over: the whole of it, or that of one lot. */
const stretchOf = ({ told }: ShiftTold, lot: string | undefined): { fromS: number; toS: number } => {
  const endS = (told.endedMs ?? told.lastMs) / 1000;
  if (lot === undefined) return { fromS: 0, toS: endS };
  const found = told.lots.find((one) => one.id === lot);
  if (found === undefined) return { fromS: 0, toS: 0 };
  return { fromS: found.openedMs / 1000, toS: found.closedMs === null ? endS : found.closedMs / 1000 };
};

const ofShift = (one: ShiftTold, filter: ReportFilter): OfShift => {
  const { fromS, toS } = stretchOf(one, filter.lot);
  const changes: AlarmChange[] = one.told.alarms.map(({ alarm, atMs, state }) => ({
    alarm,
    state,
    atS: atMs / 1000,
  }));
  const raised = raisedOf(changes)
    .filter((run) => run.atS >= fromS && run.atS <= toS)
    .map((run) => ({
      ...run,
      atS: run.atS - fromS,
      goneS: run.goneS === null ? null : run.goneS - fromS,
      acknowledgedS: run.acknowledgedS === null ? null : run.acknowledgedS - fromS,
    }));
  return { one, raised, timesS: raised.map((run) => run.atS), endS: toS - fromS };
};

type Measured = { readonly value: number | null; readonly unit: string; readonly within: boolean | null };

const figure = (id: PublishedId, { value, unit, within }: Measured) => {
  const { words, target, source, status } = PUBLISHED[id];
  return { id, words, value, unit, target, within, source, status };
};

export const makeAlarmReport = (
  shifts: readonly ShiftTold[],
  filter: ReportFilter,
  plantKey: string | null,
): AlarmReport => {
  const each = shifts.map((one) => ofShift(one, filter));
  const runS = each.reduce((sum, one) => sum + one.endS, 0);
  const count = each.reduce((sum, one) => sum + one.raised.length, 0);
  const peak = (windowS: number): number =>
    Math.max(0, ...each.map((one) => peakIn(one.timesS, windowS).count));
  const floods = each.flatMap(({ one, timesS, endS }) => {
    const { fromS } = stretchOf(one, filter.lot);
    return floodsOf(timesS, endS).map((flood) => ({
      shift: one.source.shift,
      from: stampOf(one.start, (flood.fromS + fromS) * 1000),
      to: stampOf(one.start, (flood.toS + fromS) * 1000),
      ...flood,
    }));
  });
  const floodS = floods.reduce((sum, flood) => sum + flood.toS - flood.fromS, 0);
  const rows = rowsOf(each, count);
  const counted = (name: 'chattering' | 'fleeting'): number => rows.reduce((sum, row) => sum + row[name], 0);
  const stale = each.reduce(
    (sum, { raised, endS }) => sum + raised.filter((run) => (run.goneS ?? endS) - run.atS >= STALE_S).length,
    0,
  );
  const per = (windowS: number): number | null => (runS === 0 ? null : round((count / runS) * windowS));
  const within = (value: number | null, limit: number): boolean | null =>
    value === null ? null : value <= limit;
  const floodPct = runS === 0 ? null : round((floodS / runS) * 100);
  const topTenPct = share(
    rows.slice(0, 10).reduce((sum, row) => sum + row.times, 0),
    count,
  );
  const priorities = PRIORITIES.map((priority) => {
    const alarms = rows.filter((row) => row.priority === priority).reduce((sum, row) => sum + row.times, 0);
    return { priority, alarms, pct: share(alarms, count) };
  }).filter((row) => row.priority !== 'unknown' || row.alarms > 0);
  const chatter = counted('chattering') + counted('fleeting');
  return {
    kind: 'alarms',
    head: headOf(shifts, filter, plantKey),
    runS: round(runS, 1),
    alarms: count,
    figures: [
      figure('avgPerTenMin', { value: per(TEN_MIN_S), unit: '', within: within(per(TEN_MIN_S), 1) }),
      figure('peakPerTenMin', { value: peak(TEN_MIN_S), unit: '', within: peak(TEN_MIN_S) <= 10 }),
      figure('avgPerHourIsa', { value: per(HOUR_S), unit: '', within: within(per(HOUR_S), 12) }),
      figure('avgPerHourEemua', { value: per(HOUR_S), unit: '', within: within(per(HOUR_S), 5) }),
      figure('peakPerHour', { value: peak(HOUR_S), unit: '', within: peak(HOUR_S) <= 15 }),
      figure('perDayIsa', { value: per(DAY_S), unit: '', within: within(per(DAY_S), 300) }),
      figure('timeInFlood', { value: floodPct, unit: '%', within: within(floodPct, 1) }),
      figure('chattering', { value: chatter, unit: '', within: chatter === 0 }),
      figure('stale', { value: stale, unit: '', within: stale < 5 }),
      // With a handful of alarm kinds the ten most frequent are nearly all of them: no limit to hold a small plant to.
      figure('topTen', { value: topTenPct, unit: '%', within: null }),
      figure('priorities', { value: null, unit: '', within: null }),
    ],
    floods,
    floodS: round(floodS, 1),
    priorities,
    byAlarm: rows,
    shelved: shifts.flatMap((one) =>
      one.told.alarms
        .filter((change) => change.state === 'shelved' || change.state === 'out of service')
        .map((change) => ({
          shift: one.source.shift,
          at: stampOf(one.start, change.atMs),
          words: alarmWords(change.alarm),
          what: change.state,
          by: change.by?.person ?? '',
          reason: change.reason ?? '',
        })),
    ),
    histograms: each.map(({ one, timesS, endS }) => ({
      shift: one.source.shift,
      name: one.source.scenario?.shift.name ?? one.told.opened.shift,
      date: one.start.date,
      startsAt: stampOf(one.start, stretchOf(one, filter.lot).fromS * 1000).slice(11, 16),
      counts: histogramOf(timesS, TEN_MIN_S, endS),
    })),
  };
};

const rowsOf = (each: readonly OfShift[], count: number): AlarmReport['byAlarm'] => {
  const rows = new Map<string, AlarmReport['byAlarm'][number] & { ackSum: number }>();
  for (const { raised, endS } of each) {
    const chatter = new Map(chatteringOf(raised).map((one) => [one.alarm, one.times]));
    const fleet = new Map(fleetingOf(raised).map((one) => [one.alarm, one.times]));
    for (const [alarm, runs] of byAlarm(raised)) {
      const row = rows.get(alarm) ?? {
        alarm,
        words: alarmWords(alarm),
        priority: alarmPriority(alarm),
        times: 0,
        pct: 0,
        stoodS: 0,
        longestS: 0,
        acknowledged: 0,
        meanAckS: null,
        chattering: 0,
        fleeting: 0,
        standing: false,
        ackSum: 0,
      };
      for (const run of runs) {
        const stood = Math.max(0, Math.min(endS, run.goneS ?? endS) - run.atS);
        row.times += 1;
        row.stoodS = round(row.stoodS + stood, 1);
        row.longestS = Math.max(row.longestS, round(stood, 1));
        if (run.goneS === null) row.standing = true;
        if (run.acknowledgedS === null) continue;
        row.acknowledged += 1;
        row.ackSum += run.acknowledgedS - run.atS;
      }
      row.chattering += chatter.get(alarm) ?? 0;
      row.fleeting += fleet.get(alarm) ?? 0;
      rows.set(alarm, row);
    }
  }
  return [...rows.values()]
    .map(({ ackSum, ...row }) => ({
      ...row,
      pct: share(row.times, count) ?? 0,
      meanAckS: row.acknowledged === 0 ? null : round(ackSum / row.acknowledged, 1),
    }))
    .sort((a, b) => b.times - a.times || (a.alarm < b.alarm ? -1 : 1));
};
