/** Questions about the lots of the lab book that other parts ask too. */
import { type LotState, MAY_LEAVE } from './facts.ts';
import type { LabLot } from './state.ts';

const keyOf = (lot: string): [string, number] => {
  const [day = '', n = '0'] = lot.split('-');
  return [day, Number(n)];
};

/** Year and month in the name of a lot: '260512-9' lies in '26-05'. */
export const monthOf = (lot: string): string => `${lot.slice(0, 2)}-${lot.slice(2, 4)}`;

/** Lots as the book keeps them: the newest, and the older ones by month; `past` may be missing in what looks like one. */
export type LotsKept<L> = {
  readonly lots: { readonly [lot: string]: L };
  readonly past?: { readonly [month: string]: { readonly [lot: string]: L } };
};

/** A lot wherever the book keeps it; undefined when it knows none of that name. */
export const lotIn = <L>({ lots, past }: LotsKept<L>, lot: string): L | undefined =>
  lots[lot] ?? past?.[monthOf(lot)]?.[lot];

/** Every lot the book holds. */
export const allLots = <L>({ lots, past = {} }: LotsKept<L>): L[] => [
  ...Object.values(past).flatMap((month) => Object.values(month)),
  ...Object.values(lots),
];

/** By day and number: '260512-9' before '260512-10'. */
export const compareLots = (a: string, b: string): number => {
  const [dayA, nA] = keyOf(a);
  const [dayB, nB] = keyOf(b);
  return dayA === dayB ? nA - nB : dayA < dayB ? -1 : 1;
};

const DECIDED: readonly LotState[] = ['accepted', 'rejected', 'released by concession'];

/** Somebody has decided what becomes of it. */
export const isDecided = (lot: Pick<LabLot, 'state'>): boolean => DECIDED.includes(lot.state);

/** Where a lot stands in the lab; null when the book does not know it. */
export const stateOfLot = (lab: LotsKept<LabLot>, lot: string): LotState | null =>
  lotIn(lab, lot)?.state ?? null;

/** Why a lot may not leave the yard, in words; null when it may. */
export const whyNotLeave = (lab: LotsKept<LabLot>, lot: string): string | null => {
  const state = stateOfLot(lab, lot);
  if (state === null)
    return `The lab does not know lot ${lot}: it cannot leave before it is tested and accepted.`;
  return MAY_LEAVE.includes(state)
    ? null
    : `Lot ${lot} is ${state} in the lab: only an accepted lot, or one released by concession, may leave.`;
};

/** What usually comes after a result that fails, in the order it is tried. */
export const NEXT_STEPS: readonly string[] = [
  'Look into it: weights, temperatures and traces of its batches.',
  'Order a retest on the retained portion; both results are kept.',
  'Rework it, when it can be made good.',
  'Reject it and send it to waste.',
  'Ask a supervisor for a concession, with a reason.',
];
