/** Ordinary differential equations by the classic fourth-order Runge–Kutta step (standard numerics). */

/** Rates of change of each unknown, in its unit per second, at a time in s. */
export type Rates = (atS: number, y: readonly number[]) => readonly number[];

const along = (y: readonly number[], k: readonly number[], stepS: number): number[] =>
  y.map((value, i) => value + stepS * (k[i] ?? 0));

/** The unknowns one step of stepS seconds later. */
export const rungeKutta = (rates: Rates, atS: number, y: readonly number[], stepS: number): number[] => {
  const k1 = rates(atS, y);
  const k2 = rates(atS + stepS / 2, along(y, k1, stepS / 2));
  const k3 = rates(atS + stepS / 2, along(y, k2, stepS / 2));
  const k4 = rates(atS + stepS, along(y, k3, stepS));
  return y.map(
    (value, i) => value + (stepS / 6) * ((k1[i] ?? 0) + 2 * (k2[i] ?? 0) + 2 * (k3[i] ?? 0) + (k4[i] ?? 0)),
  );
};

export type Moment = { readonly atS: number; readonly y: readonly number[] };

/** The unknowns at the start and after every `every` steps of stepS seconds, up to endS. */
export const integrate = (
  rates: Rates,
  y0: readonly number[],
  endS: number,
  stepS: number,
  every = 1,
): readonly Moment[] => {
  const steps = Math.round(endS / stepS);
  const moments: Moment[] = [{ atS: 0, y: y0 }];
  let y = y0;
  for (let i = 0; i < steps; i += 1) {
    y = rungeKutta(rates, i * stepS, y, stepS);
    if ((i + 1) % every === 0) moments.push({ atS: (i + 1) * stepS, y });
  }
  return moments;
};
