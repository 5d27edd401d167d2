/** The solver behind blending: HiGHS as WebAssembly, loaded once, when it is first needed. */
import loadHighs from 'highs';
import type { Solve, Solved } from '../../machines/yard/mixes/programs.ts';

type Highs = Awaited<ReturnType<typeof loadHighs>>;

/** A program of a few dozen unknowns takes milliseconds; this only keeps a fault from holding up the line. */
const LONGEST_S = 2;

const statusOf = (status: string): Solved['status'] =>
  status === 'Optimal' ? 'optimal' : status === 'Infeasible' ? 'infeasible' : 'other';

const solverOf =
  (highs: Highs): Solve =>
  (program) => {
    let solution: ReturnType<Highs['solve']>;
    try {
      solution = highs.solve(program, { time_limit: LONGEST_S });
    } catch {
      // It throws where rounding leaves it no way on: no answer is then told, and the line goes on.
      return { status: 'other', objective: Number.NaN, values: {} };
    }
    const { Status, ObjectiveValue, Columns } = solution;
    return {
      status: statusOf(Status),
      objective: ObjectiveValue,
      values: Object.fromEntries(
        Object.entries(Columns).map(([name, column]) => [name, (column as { Primal?: number }).Primal ?? 0]),
      ),
    };
  };

let solver: Promise<Solve> | null = null;

/** The solver; a load that failed is tried again the next time. */
export const blendSolver = (): Promise<Solve> => {
  solver ??= loadHighs().then(solverOf);
  solver.catch(() => {
    solver = null;
  });
  return solver;
};
