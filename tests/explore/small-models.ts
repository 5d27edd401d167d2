/** Models of the small charts: thermal-oil heater, tank heaters, alarm; each with a watcher of what was heard. */
import { alarmState, isConditionOn } from '../../machines/charts/alarm/alarm.guards.ts';
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { oilHeaterDemands } from '../../machines/charts/oil-heater/oil-heater.guards.ts';
import type { TankId } from '../../machines/charts/tank-heater/tank-heater.events.ts';
import { heatIsWanted, isCoilOpen } from '../../machines/charts/tank-heater/tank-heater.guards.ts';
import type { StoryChart } from '../../machines/scenario/story.schema.ts';
import type { ChartTable } from './chart-table.ts';
import type { Model, Rule } from './explorer.ts';
import { NEVER } from './never-rules.ts';

/**
 * A chart beside bits that remember the last edge heard of some signals. A bit starts 0 (the unsafe side for
 * `safeWhenOn` signals is off) and only edges move it, so it is what an honest listener would know.
 */
const watched = (
  name: string,
  chart: StoryChart,
  table: ChartTable,
  signals: readonly string[],
  rules: (
    chartOf: (state: number) => number,
    heard: (state: number, signal: string) => boolean,
  ) => readonly Rule[],
): Model => {
  const bits = 1 << signals.length;
  const events = [
    ...table.events,
    ...signals.flatMap((one) => [`on.${one}`, `off.${one}`]).filter((type) => !table.events.includes(type)),
  ];
  const width = table.events.length;
  const moves = events.map((type) => {
    const bit = signals.findIndex((one) => type === `on.${one}` || type === `off.${one}`);
    return { bit, on: type.startsWith('on.') };
  });
  const chartOf = (state: number): number => Math.floor(state / bits);
  const heard = (state: number, signal: string): boolean => ((state >> signals.indexOf(signal)) & 1) === 1;
  return {
    name,
    size: table.names.length * bits,
    start: 0,
    events,
    next: (state, event) => {
      const chart = chartOf(state);
      const to = event < width ? (table.next[chart * width + event] as number) : chart;
      const { bit, on } = moves[event] as { bit: number; on: boolean };
      const mask = state % bits;
      return to * bits + (bit < 0 ? mask : on ? mask | (1 << bit) : mask & ~(1 << bit));
    },
    describe: (state) =>
      `${table.names[chartOf(state)]} having heard ${signals.filter((one) => heard(state, one)).join(', ') || 'nothing on'}`,
    charts: (state) => ({ [chart]: table.values[chartOf(state)] }),
    rules: rules(chartOf, heard),
  };
};

export const tankModel = (tank: TankId, table: ChartTable): Model =>
  watched(
    `${tank} tank heater`,
    `${tank}Tank`,
    table,
    [`${tank}Covered`, `${tank}OverLimit`, `${tank}MayHeat`],
    (chartOf, heard) => [
      {
        id: 'NR-12',
        says: NEVER['NR-12'],
        ofState: true,
        broken: (_from, _event, to) =>
          isCoilOpen(table.values[chartOf(to)] ?? '') &&
          (!heard(to, `${tank}Covered`) || heard(to, `${tank}OverLimit`)),
      },
      {
        id: 'NR-35',
        says: NEVER['NR-35'],
        ofState: true,
        broken: (_from, _event, to) =>
          heatIsWanted(table.values[chartOf(to)] ?? '') && !heard(to, `${tank}MayHeat`),
      },
    ],
  );

export const oilModel = (table: ChartTable): Model => {
  const locked = table.names.map((name) => name.startsWith('{"lockedOut"'));
  const fires = table.values.map((value) => oilHeaterDemands(value).oilBurner);
  /** Lighting ends in a lockout when its trial is over, burning when its flame is lost. */
  const fallsOut = (state: number, ending: RegExp): boolean =>
    table.events.some(
      (type, event) =>
        ending.test(type) && locked[table.next[state * table.events.length + event] as number] === true,
    );
  const unwatched = table.names.map(
    (name, state) =>
      fires[state] === true &&
      !fallsOut(state, name.includes('burning') ? /^off\.oilFlameSeen$/ : /^xstate\.after\.oilTrial\./),
  );
  return watched(
    'thermal-oil heater',
    'oilHeater',
    table,
    ['oilFlowing', 'oilOverLimit', 'tripped'],
    (chartOf, heard) => [
      {
        id: 'NR-13',
        says: NEVER['NR-13'],
        ofState: true,
        broken: (_from, _event, to) =>
          (fires[chartOf(to)] as boolean) &&
          (!heard(to, 'oilFlowing') || heard(to, 'oilOverLimit') || heard(to, 'tripped')),
      },
      {
        id: 'NR-56',
        says: NEVER['NR-56'],
        ofState: true,
        broken: (_from, _event, to) => unwatched[chartOf(to)] === true,
      },
      {
        id: 'NR-14',
        says: NEVER['NR-14'],
        broken: (from, event, to) =>
          (locked[chartOf(from)] as boolean) &&
          !locked[chartOf(to)] &&
          table.events[event] !== 'operator.resetHeater',
      },
    ],
  );
};

export const alarmModel = (table: ChartTable): Model => {
  const words = table.values.map(alarmState);
  const stands = table.values.map(isConditionOn);
  return {
    name: 'alarm',
    size: table.names.length,
    start: 0,
    events: table.events,
    next: (state, event) => table.next[state * table.events.length + event] as number,
    describe: (state) => table.names[state] as string,
    charts: (state) => ({ alarm: table.values[state] as ChartValue }),
    rules: [
      {
        id: 'NR-54',
        says: NEVER['NR-54'],
        ofState: true,
        broken: (_from, _event, to) => {
          const value = table.values[to] as { readonly suppression: string; readonly handling: unknown };
          const { inService } = value.handling as { readonly inService?: string };
          return inService !== undefined && (inService === 'suppressed') !== (value.suppression === 'on');
        },
      },
      {
        id: 'NR-17',
        says: NEVER['NR-17'],
        ofState: true,
        broken: (_from, _event, to) =>
          stands[to]
            ? words[to] === 'normal' || words[to] === 'returned unacknowledged'
            : words[to] === 'unacknowledged' || words[to] === 'acknowledged',
      },
    ],
  };
};
