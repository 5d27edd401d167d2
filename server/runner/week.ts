/** Runs a week headless: a shift a day in one record, with a seeded laboratory at work beside the line. */

import { allLots, compareLots } from '../../machines/lab/lots.ts';
import { seriesOf } from '../../machines/lab/series.ts';
import { labWorks, type SeededLab } from '../../machines/lab/standin.ts';
import type { LabLot, LabState } from '../../machines/lab/state.ts';
import { chart, type DriftNote, type Signal } from '../../machines/lab/stats/index.ts';
import { clockOf } from '../../machines/ledger/listen.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { Week } from '../../machines/scenario/week.schema.ts';
import { askLedger } from '../ledger/ask.ts';
import type { Store } from '../store/store.ts';
import { type Beside, type HeadlessResult, runHeadless } from './headless.ts';
import type { AnyWorld, LineEngine } from './line-engine.ts';
import { onItsOwnDay } from './next-shift.ts';

export type WeekOptions<W extends AnyWorld> = {
  readonly engine: LineEngine<W>;
  readonly week: Week;
  readonly scenarios: readonly Scenario[];
  readonly store: Store;
  readonly key?: PlantKey;
  readonly onFact?: (fact: Fact, atMs: number, day: number) => void;
  /** Share of the week that is done, 0..1. */
  readonly onProgress?: (share: number) => void;
};

export type Refused = { readonly at: string; readonly command: string; readonly because: readonly string[] };

export type WeekResult<W> = {
  readonly days: readonly HeadlessResult<W>[];
  readonly lots: readonly LabLot[];
  /** What the lab was refused; a diligent lab is refused nothing. */
  readonly refused: readonly Refused[];
  readonly signals: readonly Signal[];
  readonly drift: DriftNote | null;
};

/** More than this at one look is a lab that runs in circles. */
const MOST_AT_ONCE = 500;

const labOf = async (store: Store): Promise<LabState> => (await store.books()).ledger.lab as LabState;

/** The seeded lab at one look: does what there is to do until there is nothing, or until it is refused. */
const labBeside =
  <W extends AnyWorld>(
    { engine, store }: Pick<WeekOptions<W>, 'engine' | 'store'>,
    lab: SeededLab,
    refused: Refused[],
    nextId: () => string,
  ): Beside<W> =>
  async ({ world, add }) => {
    const at = clockOf(await store.books(), world.atMs);
    for (let n = 0; n < MOST_AT_ONCE; n += 1) {
      const truthOf = (lot: string, sample: number) => engine.benchTruth?.(world, lot, sample) ?? null;
      const work = labWorks(lab, await labOf(store), truthOf, at);
      if (work === null) return;
      const ask = { id: nextId(), book: 'lab', by: work.by, command: work.command } as const;
      const made = await askLedger(store, ask, at, () => undefined);
      if (!('contents' in made)) {
        refused.push({
          at,
          command: work.command.do,
          because: made.ok ? ['nothing came of it'] : made.because,
        });
        return;
      }
      await add(made.contents);
    }
    throw new Error(`the lab found no end of work at ${at}`);
  };

const DAY_MS = 24 * 3600_000;
const dayNo = (date: string): number => Date.parse(`${date}T00:00:00.000Z`) / DAY_MS;

/** The days of the week behind everything the record has, as far from each other as their file says. */
const behindRecord = async (store: Store, scenarios: readonly Scenario[]): Promise<readonly Scenario[]> => {
  const [first] = scenarios;
  if (first === undefined) return [];
  const later = dayNo((await onItsOwnDay(store, first)).shift.date) - dayNo(first.shift.date);
  return later === 0
    ? scenarios
    : scenarios.map((scenario) => ({
        ...scenario,
        shift: {
          ...scenario.shift,
          date: new Date((dayNo(scenario.shift.date) + later) * DAY_MS).toISOString().slice(0, 10),
        },
      }));
};

export const runWeek = async <W extends AnyWorld>(options: WeekOptions<W>): Promise<WeekResult<W>> => {
  const { engine, week, store } = options;
  const scenarios = await behindRecord(store, options.scenarios);
  const days: HeadlessResult<W>[] = [];
  const refused: Refused[] = [];
  let commands = 0;
  const nextId = () => {
    commands += 1;
    return `seeded-lab-${String(commands).padStart(6, '0')}`;
  };
  for (const [i, scenario] of scenarios.entries()) {
    const before = days.at(-1)?.world;
    const start = before === undefined ? {} : (engine.startAfter?.(before) ?? {});
    days.push(
      await runHeadless({
        engine,
        scenario,
        store,
        ...(options.key === undefined ? {} : { key: options.key }),
        start,
        isDated: true,
        onFact: (fact, atMs) => options.onFact?.(fact, atMs, i),
        onProgress: (share) => options.onProgress?.((i + share) / scenarios.length),
        beside: labBeside(options, week.lab, refused, nextId),
      }),
    );
  }
  const lots = allLots(await labOf(store)).sort((a, b) => compareLots(a.lot, b.lot));
  const { property, baseline, centre, sigma } = week.charts;
  const charted = chart(seriesOf(lots, property), {
    baseline,
    ...(centre === undefined ? {} : { centre }),
    ...(sigma === undefined ? {} : { sigma }),
  });
  return { days, lots, refused, signals: charted.signals, drift: charted.drift };
};
