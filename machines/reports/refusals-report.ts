/** Every refusal and every trip of one or more shifts, with what was held back and who pressed the emergency stop. */
import { z } from 'zod';
import { causeOf } from './cause.ts';
import { stampOf } from './clock.ts';
import type { ReportFilter } from './filter.ts';
import { headSchema } from './head.ts';
import { headOf, nameOf, type ShiftTold } from './head-of.ts';
import { refusalSchema, refusalsOf, tripSchema, tripsOf } from './refusals.ts';

const countSchema = z.object({ words: z.string(), times: z.int() });

export const refusalsReportSchema = z.object({
  kind: z.literal('refusals'),
  head: headSchema,
  runS: z.number(),
  refusals: z.array(refusalSchema),
  trips: z.array(tripSchema),
  held: z
    .array(z.object({ element: z.string(), causes: z.array(z.string()), times: z.int() }))
    .describe('What the gate between line and plant held back'),
  stops: z.array(
    z.object({ shift: z.int(), at: z.string(), what: z.enum(['pressed', 'released']), by: z.string() }),
  ),
  byCommand: z.array(countSchema),
  byPerson: z.array(countSchema),
  byReason: z.array(countSchema),
  /** Per shift, for the picture. */
  shifts: z.array(
    z.object({
      shift: z.int(),
      name: z.string(),
      date: z.string(),
      startsAt: z.string(),
      toS: z.number(),
      refusedS: z.array(z.number()),
      trips: z.array(z.object({ fromS: z.number(), toS: z.number() })),
    }),
  ),
});
export type RefusalsReport = z.infer<typeof refusalsReportSchema>;

const counts = (words: readonly string[]): z.infer<typeof countSchema>[] => {
  const map = new Map<string, number>();
  for (const word of words) map.set(word, (map.get(word) ?? 0) + 1);
  return [...map]
    .map(([word, times]) => ({ words: word, times }))
    .sort((a, b) => b.times - a.times || (a.words < b.words ? -1 : 1));
};

/** Figures differ from refusal to refusal ("71.4 °C"): a reason is counted by its words. */
const withoutFigures = (reason: string): string => reason.replace(/(?<![\w-])[−-]?\d+([.,:]\d+)*/g, '…');

export const makeRefusalsReport = (
  shifts: readonly ShiftTold[],
  filter: ReportFilter,
  plantKey: string | null,
): RefusalsReport => {
  const each = shifts.map((one) => {
    const endS = (one.told.endedMs ?? one.told.lastMs) / 1000;
    const lot = one.told.lots.find((found) => found.id === filter.lot);
    const fromS = lot === undefined ? 0 : lot.openedMs / 1000;
    const toS = lot === undefined ? endS : (lot.closedMs ?? endS * 1000) / 1000;
    const taken = filter.lot === undefined || lot !== undefined;
    const inside = (atS: number): boolean => taken && atS >= fromS && atS <= toS;
    return {
      one,
      runS: taken ? toS - fromS : 0,
      endS,
      inside,
      refusals: refusalsOf(one).filter(
        (refusal) => inside(refusal.atS) && (filter.person === undefined || refusal.by.id === filter.person),
      ),
      trips: tripsOf(one).filter((trip) => inside(trip.atS)),
    };
  });
  const refusals = each.flatMap((one) => one.refusals);
  const trips = each.flatMap((one) => one.trips);
  const holds = counts(
    each.flatMap(({ one, inside }) =>
      one.told.holds
        .filter((hold) => inside(hold.atMs / 1000))
        .map((hold) => JSON.stringify([hold.element, hold.because])),
    ),
  );
  return {
    kind: 'refusals',
    head: headOf(shifts, filter, plantKey),
    runS: each.reduce((sum, one) => sum + one.runS, 0),
    refusals,
    trips,
    held: holds.map(({ words, times }) => {
      const [element, because] = JSON.parse(words) as [string, string[]];
      return { element, causes: because.map((id) => `${id} ${causeOf(id).words}`.trim()), times };
    }),
    stops: each.flatMap(({ one, inside }) =>
      one.told.stops
        .filter((stop) => inside(stop.atMs / 1000))
        .filter((stop) => filter.person === undefined || stop.by.person === filter.person)
        .map((stop) => ({
          shift: one.source.shift,
          at: stampOf(one.start, stop.atMs),
          what: stop.pressed ? ('pressed' as const) : ('released' as const),
          by: nameOf(one.source, stop.by),
        })),
    ),
    byCommand: counts(refusals.map((one) => one.command)),
    byPerson: counts(refusals.map((one) => one.by.name)),
    byReason: counts(refusals.flatMap((one) => one.because.map(withoutFigures))),
    shifts: each.map(({ one, endS, refusals: own, trips: ownTrips }) => ({
      shift: one.source.shift,
      name: one.source.scenario?.shift.name ?? one.told.opened.shift,
      date: one.start.date,
      startsAt: one.start.startsAt,
      toS: endS,
      refusedS: own.map((refusal) => refusal.atS),
      trips: ownTrips.map((trip) => ({ fromS: trip.atS, toS: trip.atS + trip.stoodS })),
    })),
  };
};
