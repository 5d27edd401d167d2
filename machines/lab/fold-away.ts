/**
 * Keeps the lab book small and quick to hear: the newest lots stand by themselves, older ones by month; of old lots that
 * are over only the summary stays, the record has the rest.
 */
import { daysAfter } from './dates.ts';
import { allLots, compareLots, isDecided, monthOf } from './lots.ts';
import type { LabLot, LabState, PastLots } from './state.ts';

/** Newest lots kept by themselves and whole, whatever their state: about two weeks of work. */
export const LOTS_WHOLE = 120;
/** They are put away so many at a time. */
const AT_A_TIME = 16;
/** Lots whose summary is kept: about a year. What is older is found in the record. */
export const LOTS_KEPT = 2500;
/** Worksheets on no lot that are kept. */
export const OTHERS_KEPT = 300;
/** A portion whose date came so long ago holds its lot no more, though nobody wrote down that it was thrown away. */
export const PORTION_DAYS = 90;

/** A lot without its samples, worksheets and events. */
export const summaryOf = (lot: LabLot): LabLot => ({
  ...lot,
  samples: [],
  worksheets: [],
  events: [],
  retests: [],
  nextSteps: [],
  batches: [],
  batchGrams: [],
  folded: true,
});

/** A portion still kept back is not forgotten before its time. */
const isOver = (lot: LabLot, at: string): boolean =>
  !lot.folded &&
  isDecided(lot) &&
  lot.samples.every(
    ({ discarded, retainedKg, discardOn }) =>
      discarded ||
      (retainedKg ?? 0) === 0 ||
      (discardOn !== null && daysAfter(discardOn, PORTION_DAYS) < at.slice(0, 10)),
  );

/** The state with this lot in it, in the place it is kept. */
export const withKept = (state: LabState, lot: LabLot): LabState => {
  const name = lot.lot;
  const month = monthOf(name);
  const old = state.past[month];
  if (old === undefined || !Object.hasOwn(old, name) || Object.hasOwn(state.lots, name))
    return { ...state, lots: { ...state.lots, [name]: lot } };
  return { ...state, past: { ...state.past, [month]: { ...old, [name]: lot } } };
};

/** Nobody ever began to work at it. */
const isUntouched = (lot: LabLot): boolean =>
  lot.worksheets.length === 0 &&
  lot.events.length === 0 &&
  lot.samples.every(({ state }) => state !== 'logged');

/** Very old summaries are dropped, the oldest first, until so many lots are left; what nobody ever tested is told in short. */
const dropped = (past: PastLots, tooMany: number): PastLots => {
  const gone = new Set(
    Object.values(past)
      .flatMap((month) => Object.keys(month))
      .sort(compareLots)
      .slice(0, tooMany),
  );
  const months: Record<string, Record<string, LabLot>> = {};
  for (const [month, lots] of Object.entries(past)) {
    const left = Object.entries(lots).flatMap(([name, lot]): [string, LabLot][] => {
      if (!gone.has(name)) return [[name, lot]];
      if (!isDecided(lot)) return [[name, !lot.folded && isUntouched(lot) ? summaryOf(lot) : lot]];
      return lot.folded ? [] : [[name, lot]];
    });
    if (left.length > 0) months[month] = Object.fromEntries(left);
  }
  return months;
};

/** Those over are told in short; a month nothing changes in stays the same. */
const shortened = (past: PastLots, at: string): PastLots => {
  const months: Record<string, PastLots[string]> = {};
  for (const [month, lots] of Object.entries(past)) {
    const over = Object.values(lots).filter((lot) => isOver(lot, at));
    months[month] =
      over.length === 0
        ? lots
        : { ...lots, ...Object.fromEntries(over.map((lot) => [lot.lot, summaryOf(lot)])) };
  }
  return months;
};

/** Asked whenever a lot is opened: puts old lots away, shortens those that are over, and drops those that are very old. */
export const folded = (state: LabState, at: string): LabState => {
  const names = Object.keys(state.lots);
  if (names.length < LOTS_WHOLE + AT_A_TIME) return state;
  const sorted = names.sort(compareLots);
  const away = sorted.slice(0, sorted.length - LOTS_WHOLE);
  const lots: Record<string, LabLot> = { ...state.lots };
  const past: Record<string, Record<string, LabLot>> = {};
  for (const name of away) {
    const month = monthOf(name);
    past[month] ??= { ...state.past[month] };
    (past[month] as Record<string, LabLot>)[name] = lots[name] as LabLot;
    delete lots[name];
  }
  const short = shortened({ ...state.past, ...past }, at);
  const tooMany = allLots({ lots, past: short }).length - LOTS_KEPT;
  return { ...state, lots, past: tooMany > 0 ? dropped(short, tooMany) : short };
};
