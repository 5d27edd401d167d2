/** What a specification asks of a mix before it is made: its grading band and its residual binder. */
import { sieveOf } from '../../scenario/lab-tests.ts';
import type { Limit, Specification } from '../../scenario/specification.schema.ts';
import type { BandSieve } from './blend-problem.ts';

export type Range = { readonly from: number | null; readonly to: number | null };

const holds = ({ when }: Limit, absorptionPct: number | null): boolean => {
  if (when === undefined) return true;
  if (absorptionPct === null) return false;
  return (
    absorptionPct > (when.absorptionFromPct ?? Number.NEGATIVE_INFINITY) &&
    absorptionPct < (when.absorptionToPct ?? Number.POSITIVE_INFINITY)
  );
};

/** Limits of one property that hold at a water absorption, drawn together: the tightest of each side. */
export const rangeOf = (
  specification: Pick<Specification, 'limits'>,
  property: string,
  absorptionPct: number | null,
): Range => {
  const limits = specification.limits.filter(
    (limit) => limit.property === property && holds(limit, absorptionPct),
  );
  const froms = limits.flatMap((limit) => (limit.from === undefined ? [] : [limit.from]));
  const tos = limits.flatMap((limit) => (limit.to === undefined ? [] : [limit.to]));
  return {
    from: froms.length > 0 ? Math.max(...froms) : null,
    to: tos.length > 0 ? Math.min(...tos) : null,
  };
};

/** The grading band, from the largest sieve to the smallest, its middle as the target; empty where none is named. */
export const bandOf = (specification: Pick<Specification, 'limits'>): BandSieve[] => {
  const sieves = new Set<number>();
  for (const { property } of specification.limits) {
    const sieveMm = sieveOf(property);
    if (sieveMm !== null) sieves.add(sieveMm);
  }
  return [...sieves]
    .sort((a, b) => b - a)
    .map((sieveMm) => {
      const { from, to } = rangeOf(specification, `passing:${sieveMm}`, null);
      const fromPct = from ?? 0;
      const toPct = to ?? 100;
      return { sieveMm, fromPct, toPct, targetPct: (fromPct + toPct) / 2 };
    });
};

/** The band with its target so far between its lower (coarse) edge, 0 %, and its upper (fine) edge, 100 %. */
export const leaned = (band: readonly BandSieve[], leanPct: number): BandSieve[] =>
  band.map((sieve) => ({
    ...sieve,
    targetPct: sieve.fromPct + ((sieve.toPct - sieve.fromPct) * leanPct) / 100,
  }));
