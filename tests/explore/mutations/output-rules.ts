/** What each chart that leads binder, fuel or heat may ask for, state by state, judged from the name of the state alone. */
import {
  type BatchKind,
  type BatchValue,
  batchDemands,
} from '../../../machines/charts/batch/batch.guards.ts';
import { burnerDemands } from '../../../machines/charts/burner/burner.guards.ts';
import type { ChartValue } from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { oilHeaterDemands } from '../../../machines/charts/oil-heater/oil-heater.guards.ts';
import type { TankId } from '../../../machines/charts/tank-heater/tank-heater.events.ts';
import { tankHeaterDemands } from '../../../machines/charts/tank-heater/tank-heater.guards.ts';
import { feedOpening } from '../../../machines/charts/weigher/weigher.guards.ts';
import type { WeigherState } from '../../../machines/charts/weigher/weigher.machine.ts';
import { AT_REST, type Outputs } from '../../../machines/field/outputs.ts';
import { type ChartTable, tableOf } from '../chart-table.ts';
import { MACHINES } from '../charts.ts';
import type { Model } from '../explorer.ts';
import { NEVER_MORE } from '../never-more.ts';

export type Asked = Partial<Outputs>;

export type Asking = {
  /** Name of the chart among MACHINES. */
  readonly chart: keyof typeof MACHINES;
  readonly told: string;
  /** Outputs of binder, fuel and heat, with the fan and pump they need. */
  readonly keys: readonly (keyof Outputs)[];
  readonly asks: (value: ChartValue) => Asked;
  readonly rule: keyof typeof NEVER_MORE;
  readonly broken: (top: string, asked: Asked, value: ChartValue) => boolean;
};

export const topOf = (value: ChartValue): string =>
  typeof value === 'string' ? value : (Object.keys(value)[0] ?? '');

const on = (asked: Asked, key: keyof Outputs): boolean =>
  asked[key] !== undefined && asked[key] !== AT_REST[key];

const same = (one: boolean, other: boolean): boolean => one === other;

const burner: Asking = {
  chart: 'burner',
  told: 'burner',
  keys: ['burnerPilot', 'burnerMain', 'drumFan'],
  asks: burnerDemands,
  rule: 'NR-49',
  broken: (top, asked) =>
    !same(on(asked, 'burnerPilot'), top === 'pilotTrial' || top === 'mainTrial') ||
    !same(on(asked, 'burnerMain'), top === 'mainTrial' || top === 'running') ||
    !same(on(asked, 'drumFan'), top !== 'off'),
};

const PUMP_FAILED = ['noFlow', 'flowLost'];
const oilHeater: Asking = {
  chart: 'oilHeater',
  told: 'thermal-oil heater',
  keys: ['oilBurner', 'oilPump'],
  asks: oilHeaterDemands,
  rule: 'NR-50',
  broken: (top, asked, value) => {
    const failed = typeof value === 'object' && PUMP_FAILED.includes(String(value.lockedOut));
    return (
      !same(on(asked, 'oilBurner'), top === 'firing') || !same(on(asked, 'oilPump'), top !== 'off' && !failed)
    );
  },
};

const tank = (id: TankId): Asking => ({
  chart: `${id}Tank`,
  told: `${id} tank heater`,
  keys: [`${id}Coil`, `${id}Stir`],
  asks: (value) => tankHeaterDemands(id, value),
  rule: 'NR-51',
  broken: (top, asked) =>
    !same(on(asked, `${id}Coil`), top === 'heating') || !same(on(asked, `${id}Stir`), top === 'heating'),
});

const batch = (chart: keyof typeof MACHINES, kind: BatchKind): Asking => ({
  chart,
  told: `${kind} batch`,
  keys: ['bucketValve'],
  asks: (value) => batchDemands(value as unknown as BatchValue, kind, 1, false, false),
  rule: 'NR-52',
  broken: (_top, asked, value) => {
    const { procedure, step } = value as unknown as BatchValue;
    return !same(
      on(asked, 'bucketValve'),
      procedure === 'running' && (step === 'addingBinder' || step === 'dumping'),
    );
  },
});

/** The binder weigher's feed is the cutback feed while a cutback mix is made. */
const weigher = (held: boolean): Asking => ({
  chart: 'weigher',
  told: held ? 'weigher of a held batch' : 'weigher',
  keys: ['cutbackFeed'],
  asks: (value) => ({ cutbackFeed: feedOpening(value as WeigherState, held) }),
  rule: 'NR-53',
  broken: (top, asked) =>
    !same(on(asked, 'cutbackFeed'), top === 'toppingUp' || (!held && (top === 'coarse' || top === 'fine'))),
});

export const ASKINGS: readonly Asking[] = [
  burner,
  oilHeater,
  tank('emulsion'),
  tank('cutback'),
  batch('emulsionBatch', 'emulsion'),
  batch('warmEmulsionBatch', 'warmEmulsion'),
  batch('cutbackBatch', 'cutback'),
  weigher(false),
  weigher(true),
];

const tables = new Map<string, ChartTable>();
export const tableFor = (chart: keyof typeof MACHINES): ChartTable => {
  const known = tables.get(chart) ?? tableOf(MACHINES[chart], 700);
  tables.set(chart, known);
  return known;
};

/** The chart alone, judged by what it asks for; `asks` is its own or a broken one. */
export const askingModel = (one: Asking, asks: Asking['asks'] = one.asks): Model => {
  const table = tableFor(one.chart);
  return {
    name: `what the ${one.told} asks for`,
    size: table.names.length,
    start: 0,
    events: table.events,
    next: (state, event) => table.next[state * table.events.length + event] as number,
    describe: (state) => table.names[state] as string,
    charts: (state) => ({ [one.chart]: table.values[state] as ChartValue }),
    rules: [
      {
        id: one.rule,
        says: NEVER_MORE[one.rule],
        ofState: true,
        broken: (_from, _event, to) => {
          const value = table.values[to] as ChartValue;
          return one.broken(topOf(value), asks(value), value);
        },
      },
    ],
  };
};
