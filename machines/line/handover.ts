/** What a shift hands over when it is closed: what stands open, and its books, which must close to the gram. */
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import { ALARMS } from './alarms.ts';
import type { Account, Counts, Handover } from './facts.ts';
import type { Line } from './line.types.ts';

type Books = { readonly [A in Account]?: number };

/** The books of the shift in grams. Masses of 'materials' are negative by what was taken in. */
export const countsOf = (books: Books): Counts => {
  const accounts = Object.entries(books) as [Account, number][];
  const inGrams = 0 - (books.materials ?? 0);
  const lots = accounts
    .filter(([account]) => account.startsWith('lot:'))
    .map(([account, grams]) => ({ lot: account.slice(4), grams }));
  const wasteGrams = books.waste ?? 0;
  const waterLostGrams = books.waterLost ?? 0;
  const held = accounts
    .filter(([account, grams]) => !/^(?:materials|waste|waterLost|lot:.*)$/.test(account) && grams !== 0)
    .map(([where, grams]) => ({ where, grams }));
  const sum = (rows: readonly { readonly grams: number }[]) =>
    rows.reduce((all, { grams }) => all + grams, 0);
  const differenceGrams = inGrams - sum(lots) - wasteGrams - waterLostGrams - sum(held);
  return { inGrams, lots, wasteGrams, waterLostGrams, held, differenceGrams };
};

/** Alarms that somebody has still to see to, or that are kept quiet. */
const openAlarms = (line: Line): Handover['alarms'] =>
  ALARMS.flatMap(({ id }) => {
    const value = (line.alarmCharts[`alarm:${id}`] ?? line.charts[`alarm:${id}`])?.value;
    const state = value === undefined ? 'normal' : alarmState(value as never);
    return state === 'normal' || state === 'suppressed by design' ? [] : [{ alarm: id, state }];
  });

export const handoverOf = (line: Line, notes: string): Handover => {
  const { inhibits, permit } = line.maintenance;
  return {
    notes,
    alarms: openAlarms(line),
    inhibits: Object.entries(inhibits).map(([cause, { reason, by }]) => ({ cause, reason, by: by.person })),
    permits: permit === null ? [] : [{ permit: permit.n, where: permit.where, by: permit.by.person }],
    counts: countsOf(line.books),
  };
};
