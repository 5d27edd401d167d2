/** Job mixes: the best blend by the solver, what mends a blend that cannot be, and a whole sheet as a slider moves. */

import { binFigures } from '../../machines/yard/mixes/bins.ts';
import { bestBlend } from '../../machines/yard/mixes/blend.ts';
import { type BandSieve, type BlendProblem, blendProblem } from '../../machines/yard/mixes/blend-problem.ts';
import { usualConditions } from '../../machines/yard/mixes/conditions.ts';
import { factorRows, factorValues } from '../../machines/yard/mixes/factors.ts';
import { mixSheet } from '../../machines/yard/mixes/sheet.ts';
import { blendSolver } from '../../server/ledger/blend-solver.ts';
import { cutbackMix, demoSpec } from '../plant/demo.ts';
import { bestSeconds, type Figure } from './measure.ts';

const ROWS: readonly (readonly [sieveMm: number, fromPct: number, toPct: number])[] = [
  [9.5, 90, 100],
  [4.75, 20, 55],
  [2.36, 5, 30],
  [1.18, 0, 10],
  [0.3, 0, 5],
];

const band = (shiftPct: number): BandSieve[] =>
  ROWS.map(([sieveMm, from, to]) => {
    const fromPct = Math.min(100, from + shiftPct);
    const toPct = Math.min(100, to + shiftPct);
    return { sieveMm, fromPct, toPct, targetPct: (fromPct + toPct) / 2 };
  });

export async function benchMixes(): Promise<Figure[]> {
  const bins = binFigures({ plant: demoSpec, bins: {}, morning: null }, {});
  const question = (sieves: BandSieve[]): BlendProblem =>
    blendProblem({
      band: sieves,
      marginPct: 10,
      bins: bins.map(({ bin, name, grading, ownBinderPct }) => ({
        bin,
        name,
        grading: [...grading],
        ownBinderPct,
        fromPct: 0,
        toPct: 100,
      })),
    });
  const loadS = await bestSeconds(1, async () => {
    await blendSolver();
  });
  const solve = await blendSolver();
  const fits = question(band(0));
  // 40 % more through every sieve than these bins can give at the fine end.
  const misses = question(band(40));
  if (bestBlend(fits, solve).kind !== 'fits') throw new Error('the blend of the bench does not fit');
  if (bestBlend(misses, solve).kind !== 'does not fit') throw new Error('the blend of the bench fits');
  const fitS = await bestSeconds(10, () => void bestBlend(fits, solve));
  const missS = await bestSeconds(10, () => void bestBlend(misses, solve));
  const conditions = usualConditions(cutbackMix, demoSpec, 9, 360);
  const factors = factorValues(factorRows({}));
  const sheets = 200;
  const sheetS = await bestSeconds(5, () => {
    for (let i = 0; i < sheets; i += 1)
      mixSheet({ mix: cutbackMix, plant: demoSpec, bins, specification: null, conditions, factors });
  });
  return [
    { id: 'mixes.solverLoad', what: 'solver loaded', value: loadS * 1000, unit: 'ms' },
    { id: 'mixes.blend', what: 'best blend of three bins in a band', value: fitS * 1000, unit: 'ms' },
    { id: 'mixes.mend', what: 'no blend fits: what mends it', value: missS * 1000, unit: 'ms' },
    { id: 'mixes.sheet', what: 'whole sheet of a mix', value: (sheetS * 1000) / sheets, unit: 'ms' },
  ];
}
