/** The report of one shift: what was made, of what, by whom, and whether the books close. */
import { z } from 'zod';
import type { Tag } from '../field/tags.ts';
import { alarmWords } from './alarm-words.ts';
import {
  batchLineOf,
  batchLineSchema,
  lotLineOf,
  lotLineSchema,
  materialTotalSchema,
  materialTotals,
  usesMaterial,
} from './batches.ts';
import { booksOf, booksSchema } from './books.ts';
import { causeOf } from './cause.ts';
import { stampOf } from './clock.ts';
import type { ReportFilter } from './filter.ts';
import { headSchema, personSchema } from './head.ts';
import { headOf, nameOf, personOf, type ShiftTold } from './head-of.ts';
import { refusalSchema, refusalsOf, tripSchema, tripsOf } from './refusals.ts';
import { ribbonOf, ribbonSchema } from './ribbon.ts';
import { traceSchema, tracesOf } from './traces.ts';

export const shiftReportSchema = z.object({
  kind: z.literal('shift'),
  head: headSchema,
  openedBy: z.string().nullable(),
  made: z.object({
    batches: z.int(),
    dumped: z.int(),
    lots: z.int(),
    grams: z.int(),
    gramsPerHour: z.number().nullable(),
    alarms: z.int(),
    refusals: z.int(),
    trips: z.int(),
    samplesTaken: z.int(),
    samplesMissed: z.int(),
  }),
  books: booksSchema.describe('Of the whole shift, whatever the filter'),
  materials: z.array(materialTotalSchema),
  lots: z.array(lotLineSchema),
  batches: z.array(batchLineSchema),
  campaigns: z.array(
    z.object({
      campaign: z.int(),
      from: z.string(),
      charges: z.int(),
      inGrams: z.int(),
      outGrams: z.int(),
      waterGrams: z.int(),
      meanOutC: z.number().nullable(),
      fuelS: z.number(),
    }),
  ),
  people: z.array(
    z.object({
      person: personSchema,
      commands: z.int(),
      refused: z.int(),
      batches: z.int(),
      samples: z.int(),
    }),
  ),
  trips: z.array(tripSchema),
  refusals: z.array(refusalSchema),
  safety: z
    .array(z.object({ at: z.string(), what: z.string(), by: z.string(), look: z.boolean() }))
    .describe('Proof tests, inhibits, hot work, deliveries'),
  handover: z
    .object({
      notes: z.string(),
      alarms: z.array(z.object({ words: z.string(), state: z.string() })),
      inhibits: z.array(z.object({ cause: z.string(), reason: z.string(), by: z.string() })),
      permits: z.array(z.object({ permit: z.number(), where: z.string(), by: z.string() })),
      inGrams: z.int().describe('As the line counted it when the shift was closed'),
      differenceGrams: z.int(),
    })
    .nullable()
    .describe('Null while the shift runs, and in records from before shifts were handed over'),
  remarks: z.array(z.object({ at: z.string(), what: z.string(), by: z.string() })),
  ribbon: ribbonSchema,
  traces: z.array(traceSchema),
  windows: z.array(z.object({ tag: z.string(), words: z.string(), fromC: z.number(), toC: z.number() })),
});
export type ShiftReport = z.infer<typeof shiftReportSchema>;

const BATCH_TRACE_POINTS = 360;

/** What belongs on the temperature picture of a shift: the tanks its mixes draw from, and dry aggregate where it is dried. */
const windowsOf = ({
  source,
  told,
}: ShiftTold): { tag: Tag; words: string; fromC: number; toC: number }[] => {
  const used = (source.scenario?.mixes ?? []).filter((mix) =>
    told.batches.some((batch) => batch.mix === mix.id),
  );
  return used.flatMap((mix) => [
    {
      tag: (mix.family === 'cutback' ? 'cutbackTankC' : 'emulsionTankC') as Tag,
      words: mix.binder.grade,
      ...mix.windows.binderC,
    },
    ...(mix.drying === undefined
      ? []
      : [{ tag: 'holdingBinC' as Tag, words: 'dry aggregate', ...mix.windows.aggregateC }]),
  ]);
};

const campaignsOf = ({ told, start }: ShiftTold): ShiftReport['campaigns'] =>
  told.campaigns.map((campaign) => {
    const own = told.charges.filter((charge) => charge.campaign === campaign.n);
    const sum = (of: (charge: (typeof own)[number]) => number) =>
      own.reduce((total, one) => total + of(one), 0);
    return {
      campaign: campaign.n,
      from: stampOf(start, campaign.fromMs),
      charges: own.length,
      inGrams: sum((one) => one.inGrams),
      outGrams: sum((one) => one.outGrams),
      waterGrams: sum((one) => one.inGrams - one.outGrams),
      meanOutC: own.length === 0 ? null : Number((sum((one) => one.outC) / own.length).toFixed(1)),
      fuelS: own.reduce((most, one) => Math.max(most, one.fuelS), 0),
    };
  });

const peopleOf = ({ source, told }: ShiftTold): ShiftReport['people'] => {
  const ids = new Map<string, ReturnType<typeof personOf>>();
  for (const who of [
    ...told.commands.map((one) => one.by),
    ...told.refusals.map((one) => one.by),
    ...told.controls.map((one) => one.by),
  ])
    if (!ids.has(who.person)) ids.set(who.person, personOf(source, who));
  return [...ids.values()].map((person) => ({
    person,
    commands: told.commands.filter((one) => one.by.person === person.id).length,
    refused: told.refusals.filter((one) => one.by.person === person.id).length,
    batches: told.batches.filter((one) => one.askedBy?.person === person.id).length,
    samples: told.lots.flatMap((lot) => lot.samples).filter((one) => one.by?.person === person.id).length,
  }));
};

const remarksOf = ({ source, told, start }: ShiftTold): ShiftReport['remarks'] =>
  [
    ...told.controls.map((one) => ({
      atMs: one.atMs,
      what:
        one.what === 'stand-in'
          ? one.skill === null
            ? 'Stand-in switched off'
            : `Stand-in switched on: ${one.skill}`
          : `Controls ${one.what}`,
      by: nameOf(source, one.by),
    })),
    ...told.scales.map((one) => ({
      atMs: one.atMs,
      what: `Scale of the ${one.scale === 'hopper' ? 'weigh hopper' : 'binder bucket'} set to zero from ${one.fromKg} kg`,
      by: nameOf(source, one.by),
    })),
    ...told.faults.map((one) => ({
      atMs: one.atMs,
      what: one.fault === null ? `Fault cleared: ${one.target}` : `Fault put in: ${one.target}, ${one.fault}`,
      by: nameOf(source, one.by),
    })),
    ...told.stops.map((one) => ({
      atMs: one.atMs,
      what: `Emergency stop ${one.pressed ? 'pressed' : 'released'}`,
      by: nameOf(source, one.by),
    })),
    ...told.notes.map((one) => ({ atMs: one.atMs, what: `${one.what}: ${one.detail}`, by: 'the program' })),
  ]
    .sort((a, b) => a.atMs - b.atMs)
    .map(({ atMs, what, by }) => ({ at: stampOf(start, atMs), what, by }));

const handoverOf = ({ source, told }: ShiftTold): ShiftReport['handover'] => {
  const { handover } = told;
  if (handover === null) return null;
  const named = (id: string): string =>
    source.scenario?.people.find((person) => person.id === id)?.name ?? id;
  return {
    notes: handover.notes,
    alarms: handover.alarms.map(({ alarm, state }) => ({ words: alarmWords(alarm), state })),
    inhibits: handover.inhibits.map((one) => ({
      cause: `${one.cause} ${causeOf(one.cause).words}`.trim(),
      reason: one.reason,
      by: named(one.by),
    })),
    permits: handover.permits.map((one) => ({ ...one, by: named(one.by) })),
    inGrams: handover.counts.inGrams,
    differenceGrams: handover.counts.differenceGrams,
  };
};

/** Report of one shift. Its totals and its books are of the whole shift; the lists follow the filter. */
export const makeShiftReport = (
  one: ShiftTold,
  filter: ReportFilter,
  plantKey: string | null,
): ShiftReport => {
  const { source, told, start } = one;
  const endMs = told.endedMs ?? told.lastMs;
  const all = told.batches.map((batch) => batchLineOf(one, batch));
  const lots = told.lots.map((lot) => lotLineOf(one, lot));
  const books = booksOf(told);
  const batches = all.filter(
    (batch) =>
      (filter.lot === undefined || batch.lot === filter.lot) &&
      (filter.person === undefined || batch.startedBy?.id === filter.person) &&
      (filter.material === undefined || usesMaterial(batch, filter.material)),
  );
  const kept = new Set(batches.map((batch) => batch.lot));
  const mine = (person: { readonly id: string }): boolean =>
    filter.person === undefined || person.id === filter.person;
  const samples = lots.flatMap((lot) => lot.samples);
  const windows = windowsOf(one);
  const filtered = filter.lot !== undefined || filter.person !== undefined || filter.material !== undefined;
  return {
    kind: 'shift',
    head: headOf([one], filter, plantKey),
    openedBy:
      told.openedBy === null
        ? null
        : (source.scenario?.people.find((person) => person.id === told.openedBy)?.name ?? told.openedBy),
    made: {
      batches: all.filter((batch) => batch.grams > 0).length,
      dumped: all.filter((batch) => batch.dumpedWhy !== null).length,
      lots: lots.length,
      grams: books.lotsGrams,
      gramsPerHour: endMs === 0 ? null : Math.round(books.lotsGrams / (endMs / 3_600_000)),
      alarms: told.alarms.filter((alarm) => alarm.state === 'unacknowledged').length,
      refusals: told.refusals.length,
      trips: told.trips.length,
      samplesTaken: samples.filter((sample) => sample.state === 'taken').length,
      samplesMissed: samples.filter((sample) => sample.state === 'missed').length,
    },
    books,
    materials: materialTotals(batches).filter(
      (total) =>
        filter.material === undefined || total.material.toLowerCase() === filter.material.toLowerCase(),
    ),
    lots: filtered ? lots.filter((lot) => kept.has(lot.lot)) : lots,
    batches,
    campaigns: campaignsOf(one),
    people: peopleOf(one).filter(({ person }) => mine(person)),
    trips: tripsOf(one),
    refusals: refusalsOf(one).filter(({ by }) => mine(by)),
    safety: told.safety.map(({ atMs, what, by, look }) => ({
      at: stampOf(start, atMs),
      what,
      by: by === null ? '' : nameOf(source, by),
      look,
    })),
    handover: handoverOf(one),
    remarks: remarksOf(one),
    ribbon: ribbonOf(told),
    traces: tracesOf(
      source.entries,
      [...new Set(windows.map((span) => span.tag))],
      0,
      endMs,
      BATCH_TRACE_POINTS,
    ),
    windows,
  };
};
