/** Where a specification and the mix made to it cannot both be right: computed and said, never hidden. */
import { blendGrading, type Grading, passingPct } from '../../mix/gradation.ts';
import { residueOfAggregatePct, residueOfMixPct } from '../../mix/residue.ts';
import { LAB_TESTS, propertyOf, sieveOf } from '../../scenario/lab-tests.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { Limit, Specification } from '../../scenario/specification.schema.ts';
import type { Contradiction } from './judge.types.ts';
import {
  applies,
  conditionWords,
  decimalsOf,
  isWithin,
  limitsOn,
  limitWords,
  propertyWords,
  valueWords,
  windowOf,
} from './limits.ts';

export type Against = {
  /** Water absorption of the stone, %, weighted by its shares; null when unknown: every case is then looked at. */
  readonly absorptionPct: number | null;
  /** Grading of each bin by its number, as the plant file or the last sieve analysis has it. */
  readonly gradings?: ReadonlyMap<number, Grading>;
};

/** A limit that holds, or may hold: with its condition said when the absorption is not known. */
const inForce = (spec: Specification, absorptionPct: number | null): readonly Limit[] =>
  spec.limits.filter((limit) => applies(limit, absorptionPct) !== false);

const ifWords = (limit: Limit, absorptionPct: number | null): string =>
  absorptionPct === null && limit.when !== undefined ? ` (${conditionWords(limit)})` : '';

/** Absorptions to look at: the measured one, else one within every stretch the conditions cut. */
const cases = (spec: Specification, absorptionPct: number | null): readonly number[] => {
  if (absorptionPct !== null) return [absorptionPct];
  const cuts = spec.limits.flatMap(({ when }) =>
    [when?.absorptionFromPct, when?.absorptionToPct].filter((cut) => cut !== undefined),
  );
  const sorted = [...new Set(cuts)].sort((a, b) => a - b);
  const last = sorted.at(-1);
  if (last === undefined) return [];
  return [...sorted.map((cut, i) => ((sorted[i - 1] ?? 0) + cut) / 2), last + 0.25];
};

/** Limits on one property that leave no room, or room no wider than their own rounding. */
const windows = (spec: Specification, absorptionPct: number | null): Contradiction[] => {
  const out: Contradiction[] = [];
  // Without a condition the limits of a property are one window, which the schema has looked at.
  const conditional = spec.limits.filter((limit) => limit.when !== undefined);
  for (const property of new Set(conditional.map((limit) => limit.property)))
    for (const absorption of cases(spec, absorptionPct)) {
      const limits = limitsOn(spec, property, absorption);
      const first = limits.find((limit) => limit.when !== undefined);
      const { from, to } = windowOf(limits);
      const known = propertyOf(property);
      if (first === undefined || from === null || to === null || known === null) continue;
      const digits = Math.min(...limits.map(decimalsOf));
      if (to - from > 10 ** -digits) continue;
      const condition = conditionWords(first);
      const room = to < from ? 'leave no value at all' : `leave ${valueWords(property, from, digits)} alone`;
      out.push({
        kind: 'window',
        property,
        value: to - from,
        limit: first,
        words: `The limits on ${propertyWords(property)} (${limits.map(limitWords).join(', ')}) ${room} ${condition}: no plant can hold that, widen one of them.`,
      });
    }
  return out;
};

const DOSE_DIGITS = 2;

/** Residual binder the mix is dosed for, against every limit on it, on aggregate and of mix. */
const binderAim = (spec: Specification, mix: Mix, absorptionPct: number | null): Contradiction[] => {
  const { dosePct, residueMassPct } = mix.binder;
  const ofAggregate = residueOfAggregatePct(dosePct, residueMassPct);
  const ofMix = residueOfMixPct(dosePct, residueMassPct);
  const both = `${dosePct} % of dry aggregate of a binder with ${residueMassPct} % residue is ${ofAggregate.toFixed(2)} % of aggregate, ${ofMix.toFixed(2)} % of mix`;
  /** Dose at which the residual binder is just `wanted`, % of dry aggregate. */
  const doseFor = (property: string, wanted: number): number =>
    property === 'residualBinderAggPct'
      ? (100 * wanted) / residueMassPct
      : (100 * ((100 * wanted) / (100 - wanted))) / residueMassPct;
  /** A condition that asks for no more than a limit that holds anyway would say the same twice. */
  const seen = new Set<string>();
  return inForce(spec, absorptionPct)
    .filter(({ property }) => property === 'residualBinderMixPct' || property === 'residualBinderAggPct')
    .filter(({ property, from, to }) => {
      const ends = [`${property} from ${from}`, `${property} to ${to}`];
      const isNew =
        (from !== undefined && !seen.has(ends[0] ?? '')) || (to !== undefined && !seen.has(ends[1] ?? ''));
      for (const end of ends) seen.add(end);
      return isNew;
    })
    .flatMap((limit): Contradiction[] => {
      const onAggregate = limit.property === 'residualBinderAggPct';
      const at = (dose: number): number =>
        (onAggregate ? residueOfAggregatePct : residueOfMixPct)(dose, residueMassPct);
      const aim = at(dosePct);
      const says = `${limitWords(limit)} ${onAggregate ? 'of aggregate' : 'of mix'}${ifWords(limit, absorptionPct)}`;
      const edge = limit.from !== undefined && aim < limit.from ? limit.from : limit.to;
      const common = { property: limit.property, value: aim, limit };
      if (!isWithin(aim, limit) && edge !== undefined)
        return [
          {
            ...common,
            kind: 'aim',
            words: `${both}; the limit is ${says}. A dose of ${doseFor(limit.property, edge).toFixed(DOSE_DIGITS)} % would just meet it.`,
          },
        ];
      const slack = mix.tolerance.binderPct / 100;
      const low = at(dosePct * (1 - slack));
      const high = at(dosePct * (1 + slack));
      if (isWithin(low, limit) && isWithin(high, limit)) return [];
      return [
        {
          ...common,
          kind: 'edge',
          words: `${both}, within the limit of ${says}; but weighed ${mix.tolerance.binderPct} % off, as its tolerance allows, it is ${low.toFixed(2)} to ${high.toFixed(2)} % and can lie outside.`,
        },
      ];
    });
};

/** Grading the bins blend to, against the limits on each sieve. */
const gradingAim = (spec: Specification, mix: Mix, { absorptionPct, gradings }: Against): Contradiction[] => {
  const parts = mix.aggregates.flatMap(({ bin, dryPct }) => {
    const grading = gradings?.get(bin);
    return grading === undefined ? [] : [{ share: dryPct / 100, grading }];
  });
  if (parts.length === 0 || parts.length < mix.aggregates.length) return [];
  const blend = blendGrading(parts);
  return inForce(spec, absorptionPct).flatMap((limit): Contradiction[] => {
    const sieveMm = sieveOf(limit.property);
    if (sieveMm === null) return [];
    const value = passingPct(blend, sieveMm);
    if (isWithin(value, limit)) return [];
    return [
      {
        kind: 'aim',
        property: limit.property,
        value,
        limit,
        words: `The shares of stone put ${value.toFixed(1)} % through ${sieveMm} mm, and the limit is ${limitWords(limit)}: change the shares, or the stone.`,
      },
    ];
  });
};

/** What the mix file says of its binder, against the limits on deliveries. */
const binderItself = (spec: Specification, mix: Mix, absorptionPct: number | null): Contradiction[] => {
  const at60 = mix.binder.viscosity.find((point) => point.tempC === 60);
  const said: readonly (readonly [property: string, value: number | null])[] = [
    ['residuePct', mix.binder.residueMassPct],
    ['flashC', mix.binder.flashC],
    ['viscosityMm2S', mix.family === 'cutback' ? (at60?.mm2S ?? null) : null],
  ];
  return said.flatMap(([property, value]) =>
    value === null
      ? []
      : inForce(spec, absorptionPct)
          .filter((limit) => limit.property === property && !isWithin(value, limit))
          .map(
            (limit): Contradiction => ({
              kind: 'aim',
              property,
              value,
              limit,
              words: `The mix file gives its binder ${propertyWords(property)} ${valueWords(property, value)}, and the limit is ${limitWords(limit)}.`,
            }),
          ),
  );
};

/** Samples nobody could judge. */
const unlimited = (spec: Specification): Contradiction[] =>
  LAB_TESTS.map((test) => [test, spec.frequencies[test] ?? 0] as const).flatMap(
    ([test, n]): Contradiction[] =>
      n === 0 || spec.limits.some((limit) => propertyOf(limit.property)?.test === test)
        ? []
        : [
            {
              kind: 'test',
              property: null,
              value: n,
              limit: null,
              words: `${n === 1 ? `1 sample of ${test} is` : `${n} samples of ${test} are`} asked for, and no limit judges it.`,
            },
          ],
  );

/** What was found before, by specification and mix: both are files that do not change under a lot. */
const found = new WeakMap<Specification, WeakMap<Mix, Map<number | null, readonly Contradiction[]>>>();

/** As `contradictionsOf` without gradings, worked out once for each specification, mix and absorption. */
export const knownContradictions = (
  spec: Specification,
  mix: Mix,
  absorptionPct: number | null,
): readonly Contradiction[] => {
  const ofSpec = found.get(spec) ?? new WeakMap();
  found.set(spec, ofSpec);
  const ofMix = ofSpec.get(mix) ?? new Map();
  ofSpec.set(mix, ofMix);
  const known = ofMix.get(absorptionPct) ?? contradictionsOf(spec, mix, { absorptionPct });
  ofMix.set(absorptionPct, known);
  return known;
};

/** All that a specification and a mix disagree on; without a mix, what the specification disagrees on with itself. */
export const contradictionsOf = (
  spec: Specification,
  mix: Mix | null,
  against: Against,
): readonly Contradiction[] => {
  const { absorptionPct } = against;
  const own = [...windows(spec, absorptionPct), ...unlimited(spec)];
  if (mix === null) return own;
  const family: Contradiction[] =
    spec.family === 'either' || spec.family === mix.family
      ? []
      : [
          {
            kind: 'family',
            property: null,
            value: null,
            limit: null,
            words: `Mix ${mix.id} is of ${mix.family}, and specification ${spec.id} is for ${spec.family} mixes: name another specification in the mix file.`,
          },
        ];
  return [
    ...family,
    ...binderAim(spec, mix, absorptionPct),
    ...gradingAim(spec, mix, against),
    ...binderItself(spec, mix, absorptionPct),
    ...own,
  ];
};
