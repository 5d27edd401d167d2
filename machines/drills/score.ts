/** The score of a drill: points by competency, each with its reason. Nothing is scored that was not watched. */
import { TICK_MS } from '../line/line.types.ts';
import type { CompetencyView, ExpectedView, UnsafeView } from './debrief.types.ts';
import { COMPETENCIES, type Expectation } from './drill.schema.ts';
import type { DrillRun, ExpectedState, NeverState, Physical } from './run.types.ts';
import { clock } from './words.ts';

/** A thing never done counts this often at most. */
const COUNTED_TIMES = 3;

/** Pressing everything is not reading the plant: refused commands beyond these cost a point each, up to a limit. */
const REFUSED_FREE = 8;
/** Nor is calling the same person over and over: more than three calls again within a minute cost a point each. */
const RECALLED_FREE = 3;
const RECALL_TICKS = 600;
const HAMMERED_MOST = 40;

const lateS = (file: Expectation): number => file.lateS ?? 2 * file.withinS;
const half = (points: number): number => points / 2;

type Judged = Pick<ExpectedView, 'standing' | 'points' | 'of' | 'reason'>;

const judged = (run: DrillRun, file: Expectation, state: ExpectedState): Judged => {
  const at = (tick: number): string => clock(tick - run.startTick);
  const of = file.points;
  if (state.openTick === null)
    return file.ifCalledFor
      ? { standing: 'not called for', points: 0, of: 0, reason: 'It was not called for this time.' }
      : { standing: 'missed', points: 0, of, reason: 'The work never came so far that it was called for.' };
  const called = `Called for at ${at(state.openTick)}`;
  if (state.metTick === null) {
    const end = run.ended?.tick ?? run.world.tick;
    const stillTime = (end - state.openTick) / 10 < file.withinS;
    if (stillTime && file.ifCalledFor)
      return {
        standing: 'not called for',
        points: 0,
        of: 0,
        reason: `${called}, but the drill ended before it was due.`,
      };
    return { standing: 'missed', points: 0, of, reason: `${called}, never done.` };
  }
  const tookS = (state.metTick - state.openTick) / 10;
  const took = `${called}, done after ${Math.round(tookS)} s`;
  if (tookS > lateS(file))
    return { standing: 'late', points: 0, of, reason: `${took}: far too late (${file.withinS} s).` };
  const early = state.early ? half(of) : of;
  if (tookS > file.withinS)
    return { standing: 'late', points: half(early), of, reason: `${took}: late (${file.withinS} s).` };
  return state.early
    ? { standing: 'out of order', points: early, of, reason: `${took}, but before what should come first.` }
    : { standing: 'in time', points: of, of, reason: `${took} (${file.withinS} s allowed).` };
};

export const expectedViews = (run: DrillRun): ExpectedView[] =>
  run.drill.expect.flatMap((file, i) => {
    const state = run.expected[i];
    if (state === undefined) return [];
    const { id, text, competency } = file;
    const { openTick, metTick } = state;
    return [
      {
        id,
        text,
        competency,
        fromMs: openTick === null ? null : openTick * TICK_MS,
        dueMs: openTick === null ? null : openTick * TICK_MS + file.withinS * 1000,
        metMs: metTick === null ? null : metTick * TICK_MS,
        ...judged(run, file, state),
      },
    ];
  });

type Danger = { readonly text: (s: number, worst: number) => string; readonly fails: boolean };

const PHYSICAL: { readonly [K in Physical['kind']]: Danger } = {
  'flame with solvent': {
    text: (s, kg) =>
      `A dryer flame burned for ${s} s with up to ${kg.toFixed(1)} kg of solvent in the pug mill.`,
    fails: true,
  },
  'vapour above a quarter of its limit': {
    text: (s, pct) =>
      `Vapour under the hood stood above 25 % of its lower explosive limit for ${s} s, at most ${pct.toFixed(0)} %.`,
    fails: false,
  },
  'other binder in a tank': {
    text: (_, kg) => `Up to ${kg.toFixed(0)} kg of the other binder got into a tank.`,
    fails: false,
  },
  puff: { text: () => 'Unburnt fuel in the drum was lit: a puff.', fails: true },
};

const neverView = (file: DrillRun['drill']['never'][number], state: NeverState): UnsafeView[] =>
  state.firstTick === null
    ? []
    : [
        {
          atMs: state.firstTick * TICK_MS,
          kind: file.by.length === 0 ? 'physical' : state.tried === state.times ? 'tried' : 'done',
          text: file.text,
          times: state.times,
          fails: file.fails,
        },
      ];

/** Never-done things that were done or tried, and dangers that truly were there, in order of time. */
export const unsafeViews = (run: DrillRun): UnsafeView[] =>
  [
    ...run.drill.never.flatMap((file, i) => {
      const state = run.never[i];
      return state === undefined ? [] : neverView(file, state);
    }),
    ...run.physical.map(({ kind, firstTick, ticks, worst }): UnsafeView => {
      const { text, fails } = PHYSICAL[kind];
      return {
        atMs: firstTick * TICK_MS,
        kind: 'physical',
        text: text(Math.max(1, Math.round(ticks / 10)), worst),
        times: 1,
        fails,
      };
    }),
  ].sort((a, b) => a.atMs - b.atMs);

const refusedTimes = ({ did, options }: DrillRun): number =>
  did.filter((one) => one.by === options.trainee.person && one.because.length > 0).length;
const recalledTimes = ({ calls }: DrillRun): number =>
  calls.filter((one, i) =>
    calls.some((other, k) => k < i && other.who === one.who && one.tick - other.tick < RECALL_TICKS),
  ).length;

/** Points lost by hammering on the buttons, with the reason; none for the odd slip. */
const hammered = (run: DrillRun, competency: string): { points: number; reason: string } | null => {
  const isCalls = competency === 'communication';
  if (!isCalls && competency !== 'reads the plant') return null;
  const times = isCalls ? recalledTimes(run) : refusedTimes(run);
  const points = Math.min(HAMMERED_MOST, times - (isCalls ? RECALLED_FREE : REFUSED_FREE));
  if (points <= 0) return null;
  const what = isCalls
    ? `somebody already called was called again ${times} times within a minute`
    : `${times} commands were refused: read the plant, then press`;
  return { points, reason: `−${points}: ${what}` };
};

/** Points lost by things never done, by hints and by hammering on the buttons, per competency, with the reasons. */
const lossesOf = (
  run: DrillRun,
  competency: string,
): { readonly points: number; readonly reasons: string[] } => {
  const reasons: string[] = [];
  let points = 0;
  run.drill.never.forEach((file, i) => {
    const times = run.never[i]?.times ?? 0;
    if (file.competency !== competency || times === 0) return;
    const lost = file.points * Math.min(times, COUNTED_TIMES);
    points += lost;
    reasons.push(`−${lost}: ${file.text}${times === 1 ? '' : ` (${times} times)`}`);
  });
  for (const hint of run.hints) {
    const file = run.drill.expect.find((one) => one.id === hint.expectation);
    if (file?.competency !== competency || run.drill.hints.costs === 0) continue;
    points += run.drill.hints.costs;
    reasons.push(`−${run.drill.hints.costs}: a hint for “${file.text}”`);
  }
  const hammering = hammered(run, competency);
  if (hammering !== null) {
    points += hammering.points;
    reasons.push(hammering.reason);
  }
  return { points, reasons };
};

export type Scored = {
  readonly score: number;
  readonly passed: boolean;
  readonly verdict: string;
  readonly competencies: readonly CompetencyView[];
};

/** Whole points of 100; a competency that was never asked for and lost nothing is left out. */
export const scoreOf = (
  run: DrillRun,
  expected: readonly ExpectedView[],
  unsafe: readonly UnsafeView[],
): Scored => {
  let points = 0;
  let of = 0;
  const competencies = COMPETENCIES.flatMap((name): CompetencyView[] => {
    const own = expected.filter((one) => one.competency === name && one.of > 0);
    const lost = lossesOf(run, name);
    const earned = own.reduce((sum, one) => sum + one.points, 0) - lost.points;
    const most = own.reduce((sum, one) => sum + one.of, 0);
    points += earned;
    of += most;
    if (most === 0 && lost.points === 0) return [];
    return [
      {
        name,
        score: most === 0 ? 0 : Math.round((100 * Math.max(0, earned)) / most),
        points: Math.max(0, earned),
        of: most,
        reasons: [
          ...own.map((one) => `${one.points} of ${one.of}: ${one.text} ${one.reason}`),
          ...lost.reasons,
        ],
      },
    ];
  });
  const score = of === 0 ? 0 : Math.max(0, Math.round((100 * points) / of));
  const failing = unsafe.find((one) => one.fails);
  const enough = score >= run.drill.passMark;
  const passed = enough && failing === undefined;
  const verdict =
    failing !== undefined
      ? `Not passed, whatever the score: ${failing.text}`
      : enough
        ? `Passed: ${score} points, ${run.drill.passMark} were needed.`
        : `Not passed: ${score} points, ${run.drill.passMark} were needed.`;
  return { score, passed, verdict, competencies };
};
