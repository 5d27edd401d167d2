/** `run` of a week file: a shift a day in one record, the seeded laboratory beside it, and what came of both. */
import { resolve } from 'node:path';
import type { LabLot } from '../../machines/lab/state.ts';
import { line } from '../line.ts';
import { codeOf, PlainError } from '../plain-error.ts';
import { createTally } from '../runner/report.ts';
import { whyNotWritten } from '../runner/trouble.ts';
import { runWeek, type WeekResult } from '../runner/week.ts';
import { kindOf, shownPath } from '../scenarios/load.ts';
import { weekOrError } from '../scenarios/week-file.ts';
import { readYaml } from '../scenarios/yaml-file.ts';
import { openKey } from '../seal/key-file.ts';
import { expectedKey } from '../seal/seals-of.ts';
import type { Store } from '../store/store.ts';
import { createProgress } from './progress.ts';

export const isWeekFile = (file: string): boolean => kindOf(readYaml(shownPath(resolve(file)))) === 'week';

const lotReport = (lot: LabLot) => ({
  id: lot.lot,
  family: lot.family,
  mix: `${lot.mixId} v${lot.mixVersion}`,
  specification: lot.specification === null ? null : `${lot.specification} v${lot.specificationVersion}`,
  massKg: lot.grams / 1000,
  batches: lot.batches.length,
  opened: lot.openedAt,
  closed: lot.closedAt,
  state: lot.state,
  done: lot.done,
  verdict: lot.verdict,
  results: lot.results.map(({ property, value, unit }) => ({ property, value, unit })),
  missing: lot.missing,
  failing: lot.failing,
  worksheets: lot.worksheets.length,
  retests: lot.retests.length,
  decidedBy: lot.decidedBy,
  decidedAt: lot.decidedAt,
  /** Of the sealed sampling plan: what was committed, and whether what was opened holds against it. */
  commitment: lot.plan?.commitment ?? null,
  plan:
    lot.plan === null
      ? 'none'
      : lot.plan.findings === null
        ? 'sealed'
        : lot.plan.findings.length === 0
          ? 'holds'
          : lot.plan.findings.join('; '),
});

/** When the planted span error of an instrument began, which lot came first after it, and how many it took to be found. */
const foundReport = (
  planted: { readonly day: string; readonly date: string } | null,
  result: Pick<WeekResult<never>, 'lots' | 'signals' | 'drift'>,
) => {
  const ids = result.lots.map((lot) => lot.lot);
  const since =
    planted === null ? -1 : result.lots.findIndex((lot) => lot.openedAt.slice(0, 10) >= planted.date);
  const first = result.signals.find((one) => ids.indexOf(one.lot) >= since);
  return {
    planted: planted === null ? null : { ...planted, firstLot: ids[since] ?? null },
    foundAt: first?.lot ?? null,
    afterLots:
      planted === null || first === undefined || since < 0 ? null : ids.indexOf(first.lot) - since + 1,
    /** Signals with nothing planted behind them: before the drift began, or all when none was planted. */
    falseAlarms: result.signals.filter((one) => since < 0 || ids.indexOf(one.lot) < since).length,
    note: result.drift?.words ?? null,
  };
};

export const runWeekFile = async (
  file: string,
  {
    seed,
    data,
    json,
  }: { readonly seed: number | undefined; readonly data: string | undefined; readonly json: boolean },
  openStore: () => Store | null,
): Promise<number> => {
  const { week, scenarios } = weekOrError(file, seed);
  const store = openStore();
  if (store === null) throw new PlainError('A week needs a record.');
  const key = data === undefined ? null : openKey(data, await expectedKey(store));
  const tallies = scenarios.map(() => createTally());
  const progress = createProgress(process.stderr, week.name);
  const startedMs = performance.now();
  try {
    const result = await runWeek({
      engine: line,
      week,
      scenarios,
      store,
      ...(key === null ? {} : { key }),
      onFact: (fact, atMs, day) => tallies[day]?.add(fact, atMs),
      onProgress: progress.show,
    }).catch((error) => {
      if (data === undefined || !codeOf(error).startsWith('SQLITE_')) throw error;
      throw new PlainError(
        `The record in ${data} cannot be written: ${whyNotWritten(error)}. What was written is whole; the week stands there unfinished.`,
      );
    });
    const wallSeconds = Math.round(performance.now() - startedMs) / 1000;
    progress.clear();
    const at = week.days.findIndex((day) =>
      day.incidents?.some((one) => one.what === 'instrument' && one.fault === 'span'),
    );
    const date = result.days[at]?.world.scenario.shift.date;
    const day = week.days[at]?.day;
    const planted = date === undefined || day === undefined ? null : { day, date };
    const report = {
      week: week.id,
      labSeed: week.lab.seed,
      wallSeconds,
      days: result.days.map(({ world, ended, entries, head, seal, view }, i) => {
        const { batches, massBalanceErrorKg, samples, samplesMissed, refusals } = (
          tallies[i] as ReturnType<typeof createTally>
        ).report(view);
        const { date, seed } = world.scenario.shift;
        return {
          day: week.days[i]?.day ?? '',
          date,
          seed,
          ended,
          batches,
          samples,
          samplesMissed,
          massBalanceErrorKg,
          refusals,
          entries,
          head,
          seal,
        };
      }),
      lots: result.lots.map(lotReport),
      signals: result.signals.map(({ chart, lot, rule }) => ({ chart, lot, rule })),
      drift: foundReport(planted, result),
      labRefused: result.refused,
      entries: result.days.at(-1)?.entries ?? 0,
      head: result.days.at(-1)?.head ?? null,
    };
    console.log(json ? JSON.stringify(report) : inWords(report, week.name));
    const whole = report.days.every((one) => one.ended) && report.labRefused.length === 0;
    if (!whole)
      console.error(`${file}: not every day ended, or the lab was refused something; see the figures.`);
    return whole ? 0 : 1;
  } finally {
    progress.clear();
    await store.close();
  }
};

type Report = {
  readonly labSeed: number;
  readonly wallSeconds: number;
  readonly days: readonly { readonly day: string; readonly date: string; readonly batches: number }[];
  readonly lots: readonly ReturnType<typeof lotReport>[];
  readonly signals: readonly { readonly chart: string; readonly lot: string; readonly rule: string }[];
  readonly drift: ReturnType<typeof foundReport>;
  readonly entries: number;
  readonly head: string | null;
};

const residue = (lot: Report['lots'][number]): string => {
  const value = lot.results.find((one) => one.property === 'residualBinderMixPct')?.value;
  return value === undefined ? '' : `, residual binder ${value.toFixed(2)} % of mix`;
};

const inWords = (r: Report, name: string): string =>
  [
    `${name}, lab seed ${r.labSeed}: ${r.days.length} days, ${r.lots.length} lots in ${r.wallSeconds} s`,
    ...r.lots.map(
      (lot) =>
        `  lot ${lot.id}  ${(lot.massKg / 1000).toFixed(2)} t  ${lot.verdict}, ${lot.state}${lot.done === null ? '' : `, ${lot.done}`}${residue(lot)}; ${lot.worksheets} worksheets, ${lot.retests} retests; sampling plan ${lot.plan}${lot.failing.length === 0 ? '' : `\n      ${lot.failing.join('; ')}`}`,
    ),
    `Signals ${r.signals.length}`,
    ...r.signals.map((one) => `  lot ${one.lot}: ${one.chart}, ${one.rule}`),
    ...(r.drift.planted === null
      ? []
      : [
          `Planted on ${r.drift.planted.day}, first lot ${r.drift.planted.firstLot}: ${
            r.drift.foundAt === null
              ? 'not found'
              : `found at lot ${r.drift.foundAt}, after ${r.drift.afterLots} lots`
          }`,
        ]),
    ...(r.drift.note === null ? [] : [r.drift.note]),
    `Record: ${r.entries} entries, head ${r.head}`,
  ].join('\n');
