/** The figures of the take-off as a person may change them. */
import { z } from 'zod';
import { BASIS_FIGURES, type Basis, type BasisFigure } from './basis.ts';

const within = ({ from, to }: BasisFigure) => z.number().min(from).max(to);

export const basisSchema = z.strictObject(
  Object.fromEntries(BASIS_FIGURES.map((one) => [one.key, within(one)])) as {
    readonly [K in keyof Basis]: ReturnType<typeof within>;
  },
);
