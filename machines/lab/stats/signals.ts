/** All charts put to one series of lots: which lot gave which signal on which chart, in words. */
import { cusum, stepBegan } from './cusum.ts';
import { type DriftNote, whatChanged } from './drift.ts';
import { ewma } from './ewma.ts';
import { type IndividualsChart, individuals } from './individuals.ts';
import { lotMeans } from './lot-means.ts';
import { RUN_RULES, type RunRule, runsOf } from './run-rules.ts';
import type { Series } from './series.types.ts';

export const CHARTS = ['individuals', 'moving range', 'ewma', 'cusum'] as const;
export type ChartName = (typeof CHARTS)[number];

export type Signal = {
  readonly chart: ChartName;
  readonly lot: string;
  readonly rule: string;
  readonly words: string;
};

export type SignalOptions = {
  /** What the process should run at; else the mean of the baseline. */
  readonly centre?: number;
  /** Spread of lot means; else from moving ranges of the baseline. */
  readonly sigma?: number;
  /** Lots the centre and spread are taken from, the first ones; all when not given. */
  readonly baseline?: number;
  readonly lambda?: number;
  readonly ewmaK?: number;
  readonly cusumK?: number;
  readonly cusumH?: number;
  readonly runRules?: readonly RunRule[];
};

/** Rules looked for unless others are asked for: each more raises the false alarms. */
export const USUAL_RULES: readonly RunRule[] = [
  'beyond the limits',
  'nine on one side',
  'six rising or falling',
  'two of three far out',
  'four of five out',
];

/** What every chart says of a series, with the numbers it was drawn from. */
export type Charted = {
  readonly lots: Series;
  readonly individuals: IndividualsChart;
  readonly ewma: ReturnType<typeof ewma>;
  readonly cusum: ReturnType<typeof cusum>;
  readonly signals: readonly Signal[];
  /** About the first lasting shift: when it began, what changed then; null while all is quiet. */
  readonly drift: DriftNote | null;
};

/** Fewer lots cannot set limits of their own. */
export const LEAST_LOTS = 3;

const sideWords = (isHigh: boolean): string => (isHigh ? 'above' : 'below');

/** Charts of a series, lots with several results as their means. Values in one unit throughout. */
export const chart = (series: Series, options: SignalOptions = {}): Charted => {
  const lots = lotMeans(series);
  const values = lots.map((one) => one.value);
  const lotAt = (i: number): string => lots[i]?.lot ?? '';
  const own = individuals(values, options);
  const { centre, sigma } = own;
  const averages = ewma(values, {
    centre,
    sigma,
    limits: 'growing',
    ...(options.lambda === undefined ? {} : { lambda: options.lambda }),
    ...(options.ewmaK === undefined ? {} : { k: options.ewmaK }),
  });
  const sums = cusum(values, {
    centre,
    sigma,
    ...(options.cusumK === undefined ? {} : { k: options.cusumK }),
    ...(options.cusumH === undefined ? {} : { h: options.cusumH }),
  });
  const known = options.centre !== undefined && options.sigma !== undefined;
  const tells = sigma > 0 && (known || Math.min(lots.length, options.baseline ?? lots.length) >= LEAST_LOTS);
  const signals: { i: number; signal: Signal }[] = [];
  const say = (i: number, name: ChartName, rule: string, words: string): void => {
    signals.push({ i, signal: { chart: name, lot: lotAt(i), rule, words: `Lot ${lotAt(i)}: ${words}.` } });
  };
  if (tells) {
    for (const { rule, i } of runsOf(values, own, options.runRules ?? USUAL_RULES))
      say(i, 'individuals', rule, RUN_RULES[rule]);
    own.ranges.forEach((range, i) => {
      if (range > own.upperRange)
        say(
          i + 1,
          'moving range',
          'beyond the limit',
          'further from the lot before than neighbours usually are',
        );
    });
    for (const i of averages.outside)
      say(
        i,
        'ewma',
        'beyond the limits',
        `the weighted average has gone ${sideWords((averages.values[i] ?? 0) > centre)} its limit: a small shift that lasts`,
      );
    for (const { i, side } of sums.outside)
      say(
        i,
        'cusum',
        'beyond the limit',
        `the sum of what lies ${sideWords(side === 'high')} the centre has passed its limit: a small shift that lasts`,
      );
  }
  signals.sort((a, b) => a.i - b.i || CHARTS.indexOf(a.signal.chart) - CHARTS.indexOf(b.signal.chart));
  const lasting = signals.find((one) => one.signal.chart !== 'moving range');
  return {
    lots,
    individuals: own,
    ewma: averages,
    cusum: sums,
    signals: signals.map((one) => one.signal),
    drift:
      lasting === undefined
        ? null
        : whatChanged(lots, {
            began: stepBegan(values, centre, lasting.i),
            found: lasting.i,
          }),
  };
};

/** The signals of a series alone. */
export const signals = (series: Series, options: SignalOptions = {}): readonly Signal[] =>
  chart(series, options).signals;
