/** What to make this week, mix by mix: orders, what lies in stock, how fast it is used. */
import { leftToMakeKg } from './orders.ts';
import { mixesInForce, type PatchesOthers, promisedKg, stockByMix } from './others.ts';
import { addDays, daysBetween } from './schedule/days.ts';
import type { PatchesState } from './state.ts';

/** The rate of use is taken over so many days, or since the first use when that is less long ago, but at least a week. */
const RATE_DAYS = 28;
const LEAST_DAYS = 7;
const WEEK_DAYS = 7;

export type MixForecast = {
  readonly mix: string;
  readonly name: string;
  readonly family: 'emulsion' | 'cutback';
  readonly batchKg: number;
  /** Still to be made for orders that stand. */
  readonly orderedKg: number;
  /** Of those, needed within seven days. */
  readonly thisWeekKg: number;
  readonly releasedKg: number;
  readonly waitingKg: number;
  readonly barredKg: number;
  /** Released or waiting, and no order has a claim to it. */
  readonly freeKg: number;
  readonly useKgDay: number;
  /** Days the free mix lasts at that rate; null when nothing is used. */
  readonly lastsDays: number | null;
  /** Orders, and a week's use beyond them that free stock does not cover; whole batches. */
  readonly makeKg: number;
};

/** Mean use of a mix, kg a calendar day, up to and with `date`. */
export const useKgDay = (use: PatchesState['use'], mix: string, date: string): number => {
  const own = use.filter(
    (day) => day.mix === mix && daysBetween(day.date, date) < RATE_DAYS && day.date <= date,
  );
  if (own.length === 0) return 0;
  const [first = date] = own.map((day) => day.date).sort();
  const days = Math.max(LEAST_DAYS, Math.min(RATE_DAYS, daysBetween(first, date) + 1));
  return (
    Math.max(
      0,
      own.reduce((sum, { kg }) => sum + kg, 0),
    ) / days
  );
};

const wholeBatches = (kg: number, batchKg: number): number => Math.ceil(kg / batchKg - 1e-9) * batchKg;

export const forecast = (
  state: PatchesState,
  others: PatchesOthers,
  date: string,
): readonly MixForecast[] => {
  const stock = stockByMix(others);
  const until = addDays(date, WEEK_DAYS);
  return mixesInForce(state, others).map((mix) => {
    const { releasedKg = 0, waitingKg = 0, barredKg = 0 } = stock[mix.id] ?? {};
    const orders = Object.values(state.orders).filter((order) => order.mix === mix.id);
    const orderedKg = orders.reduce((sum, order) => sum + leftToMakeKg(order), 0);
    const thisWeekKg = orders
      .filter(({ neededBy }) => neededBy <= until)
      .reduce((sum, order) => sum + leftToMakeKg(order), 0);
    const freeKg = Math.max(0, releasedKg + waitingKg - promisedKg(state, mix.id));
    const rate = useKgDay(state.use, mix.id, date);
    // Use to come is met by orders first: only what goes beyond them is made for stock.
    const beyondKg = Math.max(0, rate * WEEK_DAYS - orderedKg - freeKg);
    return {
      mix: mix.id,
      name: mix.name,
      family: mix.family,
      batchKg: mix.batchKg,
      orderedKg,
      thisWeekKg,
      releasedKg,
      waitingKg,
      barredKg,
      freeKg,
      useKgDay: rate,
      lastsDays: rate > 0 ? freeKg / rate : null,
      makeKg: wholeBatches(thisWeekKg + beyondKg, mix.batchKg),
    };
  });
};
