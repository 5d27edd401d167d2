/** The linear and quadratic programs of blending, written out as text in the CPLEX LP format. */
import { type BandSieve, type BlendProblem, halfWidthPct } from './blend-problem.ts';

/** What a solver makes of a program: its status in words and the value of each unknown. */
export type Solved = {
  readonly status: 'optimal' | 'infeasible' | 'other';
  readonly objective: number;
  readonly values: { readonly [unknown: string]: number };
};
export type Solve = (program: string) => Solved;

type Term = readonly [factor: number, unknown: string];

const written = (terms: readonly Term[]): string =>
  terms
    .filter(([factor]) => factor !== 0)
    .map(([factor, unknown]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${unknown}`)
    .join(' ');

/** A row in which no unknown counts still says something: nothing at all is to be so much. */
const row = (terms: readonly Term[], sign: '>=' | '<=' | '=', right: number): string =>
  `${written(terms) || `0 ${terms[0]?.[1] ?? 'x0'}`} ${sign} ${right}`;

const program = (
  objective: string,
  rows: readonly (string | null)[],
  bounds: readonly string[],
  direction: 'Minimize' | 'Maximize' = 'Minimize',
): string =>
  [
    direction,
    ` obj: ${objective}`,
    'Subject To',
    ...rows.flatMap((text, i) => (text === null ? [] : [` c${i}: ${text}`])),
    'Bounds',
    ...bounds.map((text) => ` ${text}`),
    'End',
    '',
  ].join('\n');

/** Unknown: share of stone of a bin. */
export const share = (b: number): string => `x${b}`;

/** Shares add to 1, and those as fed keep their bounds. */
const shareRows = (problem: BlendProblem, bounded: boolean): (string | null)[] => [
  row(
    problem.bins.map((_, b): Term => [1, share(b)]),
    '=',
    1,
  ),
  ...(bounded ? problem.bins : []).flatMap((bin, b) => {
    const against = (limitPct: number): Term[] =>
      problem.bins.map(
        (other, o): Term => [
          (o === b ? bin.fedPerStone : 0) - (limitPct / 100) * other.fedPerStone,
          share(o),
        ],
      );
    return [
      bin.fromPct > 0 ? row(against(bin.fromPct), '>=', 0) : null,
      bin.toPct < 100 ? row(against(bin.toPct), '<=', 0) : null,
    ];
  }),
];

const passingTerms = (problem: BlendProblem, i: number): Term[] =>
  problem.bins.map((bin, b): Term => [bin.passing[i] as number, share(b)]);

/** Margin in % passing at each edge for each 1 of margin; an edge at 0 or 100 % is no edge. */
const marginAt = (sieve: BandSieve): { readonly below: number; readonly above: number } => {
  const width = sieve.toPct - sieve.fromPct;
  return { below: sieve.fromPct > 0 ? width : 0, above: sieve.toPct < 100 ? width : 0 };
};

const positive = (problem: BlendProblem): string[] => problem.bins.map((_, b) => `0 <= ${share(b)} <= 1`);

/** The widest margin m (0 to what is asked) that any blend can keep: a linear program. */
export const marginProgram = (problem: BlendProblem): string =>
  program(
    'm',
    [
      ...shareRows(problem, true),
      ...problem.sieves.flatMap((sieve, i) => {
        const { below, above } = marginAt(sieve);
        return [
          row([...passingTerms(problem, i), [-below, 'm']], '>=', sieve.fromPct),
          row([...passingTerms(problem, i), [above, 'm']], '<=', sieve.toPct),
        ];
      }),
    ],
    [...positive(problem), `0 <= m <= ${Math.min(0.5, problem.marginPct / 100)}`],
    'Maximize',
  );

/** The blend nearest to the target, deviations in half widths of the band, that keeps a margin: a quadratic program. */
export const nearestProgram = (problem: BlendProblem, margin: number): string =>
  program(
    `[ ${problem.sieves.map((_, i) => `2 d${i} ^2`).join(' + ')} ] / 2`,
    [
      ...shareRows(problem, true),
      ...problem.sieves.flatMap((sieve, i) => {
        const { below, above } = marginAt(sieve);
        return [
          row(passingTerms(problem, i), '>=', sieve.fromPct + margin * below),
          row(passingTerms(problem, i), '<=', sieve.toPct - margin * above),
          row([...passingTerms(problem, i), [-halfWidthPct(sieve), `d${i}`]], '=', sieve.targetPct),
        ];
      }),
    ],
    [...positive(problem), ...problem.sieves.map((_, i) => `d${i} free`)],
  );

/**
 * No blend fits: the one that lies out of the band by the least in all, in half widths (elastic linear program). With
 * `bounded` false the bounds of the bins are let go as well, to see whether they are what is in the way.
 */
export const elasticProgram = (problem: BlendProblem, bounded: boolean): string =>
  program(
    written(
      problem.sieves.flatMap((sieve, i): Term[] => [
        [1 / halfWidthPct(sieve), `u${i}`],
        [1 / halfWidthPct(sieve), `o${i}`],
      ]),
    ),
    [
      ...shareRows(problem, bounded),
      ...problem.sieves.flatMap((sieve, i) => [
        row([...passingTerms(problem, i), [1, `u${i}`]], '>=', sieve.fromPct),
        row([...passingTerms(problem, i), [-1, `o${i}`]], '<=', sieve.toPct),
      ]),
    ],
    [...positive(problem), ...problem.sieves.flatMap((_, i) => [`u${i} >= 0`, `o${i} >= 0`])],
  );

/** Rows of a blend with a further material of any grading: y is its share of stone, z(i) the part passing each sieve. */
const mendRows = (problem: BlendProblem): (string | null)[] => [
  row([...problem.bins.map((_, b): Term => [1, share(b)]), [1, 'y']], '=', 1),
  ...problem.bins.flatMap((bin, b) => {
    const against = (limitPct: number): Term[] => [
      ...problem.bins.map(
        (other, o): Term => [
          (o === b ? bin.fedPerStone : 0) - (limitPct / 100) * other.fedPerStone,
          share(o),
        ],
      ),
      [-limitPct / 100, 'y'],
    ];
    return [
      bin.toPct < 100 ? row(against(bin.toPct), '<=', 0) : null,
      bin.fromPct > 0 ? row(against(bin.fromPct), '>=', 0) : null,
    ];
  }),
  ...problem.sieves.flatMap((sieve, i) => [
    row([...passingTerms(problem, i), [100, `z${i}`]], '>=', sieve.fromPct),
    row([...passingTerms(problem, i), [100, `z${i}`]], '<=', sieve.toPct),
    // No more passes a smaller sieve, and no more than all of it.
    i === 0
      ? row(
          [
            [1, 'z0'],
            [-1, 'y'],
          ],
          '<=',
          0,
        )
      : row(
          [
            [1, `z${i}`],
            [-1, `z${i - 1}`],
          ],
          '<=',
          0,
        ),
  ]),
];

const mendBounds = (problem: BlendProblem): string[] => [
  ...positive(problem),
  ...problem.sieves.map((_, i) => `0 <= z${i} <= 1`),
];

/** The least share of a further material, of whatever grading, that brings the blend into its band. */
export const leastMendProgram = (problem: BlendProblem): string =>
  program('y', mendRows(problem), [...mendBounds(problem), '0 <= y <= 1']);

/** With that share of it or a little more: the grading of the further material that brings the blend nearest to its target. */
export const mendGradingProgram = (problem: BlendProblem, mostShare: number): string =>
  program(
    `[ ${problem.sieves.map((_, i) => `2 d${i} ^2`).join(' + ')} ] / 2`,
    [
      ...mendRows(problem),
      ...problem.sieves.map((sieve, i) =>
        row(
          [...passingTerms(problem, i), [100, `z${i}`], [-halfWidthPct(sieve), `d${i}`]],
          '=',
          sieve.targetPct,
        ),
      ),
    ],
    [...mendBounds(problem), `0 <= y <= ${mostShare}`, ...problem.sieves.map((_, i) => `d${i} free`)],
  );
