/** A worksheet made from its description: fields common to all, readings looked at, then its own arithmetic. */
import { z } from 'zod';
import { BALANCES, type BalanceName } from './balances.ts';
import { fieldsOf } from './fields.ts';
import { newPage, type Page } from './page.ts';
import { minutesBetween, spokenTime } from './plant-time.ts';
import { readReadings, type Values } from './read.ts';
import { plain, written } from './rounding.ts';
import type { FieldSpec, Readings, Sheet, SheetContext, WorkedOut } from './sheet.types.ts';
import { balanceWords } from './uncertainty.ts';

/** Readings as they come from a console: short texts and finite numbers, not more than a sheet could hold. */
export const readingsSchema: z.ZodType<Readings> = z
  .record(z.string().min(1).max(60), z.union([z.string().max(80), z.number(), z.null()]))
  .refine((readings) => Object.keys(readings).length <= 120, {
    error: 'a worksheet has at most 120 readings',
  });

export type SheetDescription = Omit<Sheet, 'schema' | 'workOut'> & {
  /** Computes onto the page; all fields have been read, each possible by itself. */
  readonly work: (values: Values, page: Page, context: SheetContext) => void;
};

const ENDED: FieldSpec = {
  key: 'endedAt',
  label: 'Test ended',
  unit: '',
  group: 'When',
  kind: 'time',
  decimals: 0,
  hint: "on the plant's clock",
};

const BALANCE: FieldSpec = {
  key: 'balance',
  label: 'Balance',
  unit: '',
  group: 'Weighed on',
  kind: 'choice',
  decimals: 0,
  optional: true,
  choices: Object.entries(BALANCES).map(([is, { accuracy, maxG }]) => ({
    is,
    label: `${is}, class ${accuracy}, up to ${maxG >= 1000 ? `${maxG / 1000} kg` : `${maxG} g`}`,
  })),
  hint: 'the one the sample was weighed on',
};

const tooSoon = (endedAt: string, leastMinutes: number, context: SheetContext): string | null => {
  const { sampledAt } = context;
  if (sampledAt === undefined || sampledAt === null) return null;
  const minutes = minutesBetween(sampledAt, endedAt);
  if (minutes === null || minutes >= leastMinutes) return null;
  if (minutes < 0)
    return `Test ended: ${spokenTime(endedAt)} is before the sample was taken (${spokenTime(sampledAt)}): enter when it was`;
  const took = leastMinutes >= 120 ? `${plain(leastMinutes / 60)} h` : `${plain(leastMinutes)} min`;
  return `Test ended: the sample was taken at ${spokenTime(sampledAt)} and this test takes at least ${took}: enter when it ended`;
};

const labelOf = (fields: readonly FieldSpec[], key: string): string =>
  fields.find((field) => field.key === key.split(':')[0])?.label ?? key;

/** What the letters of the formulas stand for, as far as it was read. */
const lettersOf = (fields: readonly FieldSpec[], values: Values): Record<string, number> =>
  Object.fromEntries(
    fields.flatMap(({ key, symbol }) => {
      const value = symbol === undefined ? null : values.opt(key);
      return symbol === undefined || value === null ? [] : [[symbol, value]];
    }),
  );

/** A sheet whose workOut never throws on readings, whatever they are. */
export const makeSheet = ({ work, ...described }: SheetDescription): Sheet => {
  const weighs = described.fields.some(({ kind }) => kind === 'mass');
  const fields = [...described.fields, ...(weighs ? [BALANCE] : []), ENDED];
  const workOut = (readings: Readings, context: SheetContext): WorkedOut => {
    const read = readReadings({ fields }, readings, context);
    if (!read.ok) return { ok: false, because: read.because };
    const page = newPage(lettersOf(fieldsOf({ fields }, readings, context), read.values));
    const early = tooSoon(read.values.text('endedAt'), described.leastMinutes, context);
    if (early !== null) page.refuse('endedAt', early);
    work(read.values, page, context);
    for (const key of read.unused)
      page.note(`${labelOf(fields, key)} was entered but belongs to another choice: it is not used.`);
    page.against(context.limits ?? []);
    return page.workedOut();
  };
  const sheet: Sheet = { ...described, fields, schema: readingsSchema, workOut };
  return {
    ...sheet,
    workOut: (readings, context) => {
      const out = workOut(readings, context);
      const { balance } = readings;
      if (!out.ok || !weighs || typeof balance !== 'string' || !Object.hasOwn(BALANCES, balance)) return out;
      const said = balanceWords(sheet, readings, context, balance as BalanceName);
      return {
        ...out,
        departures: [...out.departures, ...said.departures],
        notes: [...out.notes, ...said.notes],
      };
    },
  };
};

/** A refusal when more is weighed out than the sample held; to be called with the mass of the portion. */
export const refuseMoreThanSample = (
  page: Page,
  field: string,
  label: string,
  massG: number,
  context: SheetContext,
): void => {
  if (context.sampleMassG !== null && massG > context.sampleMassG)
    page.refuse(
      field,
      `${label}: ${written(massG, 1)} g is more than there was of the sample to test (${written(context.sampleMassG, 1)} g): weigh again, or put its mass or what was kept back right`,
    );
};
